// The form under a question: the prompt, a field that fits, buttons, and what the judge says.
//
// Everything is native HTML with labels. Texts that come as HTML were made and escaped in Python (wording.to_html);
// what a learner types is only ever set as a value or as text.

const PATIENCE = 5000; // ms without an answer, then the form says so
const WORDS = {
  slow: "Python has not answered yet. It may be busy with another cell. If it was stopped or restarted, run the notebook again: menu Run, Run All Cells.",
  gone: "Python was stopped or restarted, so this form rests. Run the notebook again: menu Run, Run All Cells.",
};

function fromHtml(tag, attributes, html) {
  const node = element(tag, attributes);
  node.innerHTML = html;
  return node;
}

// ---- fields: each one has node, read() and write(typed)

function textField(field, id) {
  const input = element("input", {
    type: "text", id, class: field.wide ? "sl-input sl-wide" : "sl-input", autocomplete: "off", spellcheck: "false",
    "aria-describedby": field.help ? `${id}-help` : null,
  });
  const entry = element("div", { class: "sl-entry" }, input);
  let unit = null;
  if (field.units.length) {
    const names = field.units.map((name) => element("option", { value: name }, name));
    unit = element("select", { class: "sl-select", "aria-label": "Unit" }, element("option", { value: "" }, "unit …"), ...names);
    entry.append(unit);
  } else if (field.suffix) {
    entry.append(element("span", {}, field.suffix));
  }
  const node = element("div", { class: "sl-field" }, element("label", { for: id }, field.label), entry);
  if (field.help) node.append(element("div", { class: "sl-help", id: `${id}-help` }, field.help));
  return {
    node,
    read: () => ({ text: input.value, unit: unit ? unit.value : "" }),
    write(typed) {
      input.value = typed.text || "";
      if (unit) unit.value = typed.unit || "";
    },
  };
}

function optionsField(field, id) {
  const inputs = [];
  const rows = field.options.map((option) => {
    const input = element("input", { type: "radio", name: id, value: option.key });
    inputs.push(input);
    return element("label", { class: "sl-option" }, input, element("span", {}, `${option.letter})`), fromHtml("span", {}, option.html));
  });
  return {
    node: element("fieldset", { class: "sl-field" }, element("legend", {}, field.label), ...rows),
    read: () => ({ option: inputs.find((input) => input.checked)?.value || "" }),
    write(typed) {
      for (const input of inputs) input.checked = input.value === typed.option;
    },
  };
}

function settingsField(field, id) {
  const fields = field.rows.map((row, at) => {
    const input = row.options.length
      ? element("select", { id: `${id}-${at}`, class: "sl-select" }, ...row.options.map((text) => element("option", { value: text }, text)))
      : element("input", { type: "text", id: `${id}-${at}`, class: "sl-input", autocomplete: "off" });
    input.value = row.value;
    return { row, input };
  });
  const grid = element("div", { class: "sl-rows" });
  for (const { row, input } of fields) {
    const label = row.unit && !row.options.length ? `${row.label} [${row.unit}]` : row.label;
    grid.append(element("label", { for: input.id }, label), input);
  }
  return {
    node: element("fieldset", { class: "sl-field" }, element("legend", {}, field.label), grid),
    // Only what was changed is sent: the printed number of an untouched row may be rounded.
    read: () => ({ settings: Object.fromEntries(fields.filter(({ row, input }) => input.value !== row.value).map(({ row, input }) => [row.path, input.value])) }),
    write(typed) {
      for (const { row, input } of fields) if (row.path in (typed.settings || {})) input.value = typed.settings[row.path];
    },
  };
}

function codeField(field) {
  return { node: fromHtml("div", { class: "sl-field" }, field.help), read: () => ({}), write() {} };
}

const FIELDS = { text: textField, options: optionsField, settings: settingsField, code: codeField };

// ---- links in replies, such as "Look again at: Why"

// JupyterLab gives headings names of its own kind, so a link to one would lead nowhere; this leads to it, also from
// the output of a cell. Named as `heading_anchor` does.
const anchorOf = (heading) =>
  heading.textContent.replaceAll("¶", "").trim().replaceAll(" ", "-").replace(/[^\p{L}\p{N}_.,?!-]/gu, "");

function follow(event) {
  const link = event.target.closest?.('.sl-reply a[href^="#"]');
  if (!link) return;
  const wanted = decodeURIComponent(link.hash.slice(1));
  const headings = (link.closest(".jp-Notebook") || document).querySelectorAll("h1, h2, h3, h4");
  const heading = [...headings].find((each) => anchorOf(each) === wanted);
  if (!heading) return;
  event.preventDefault();
  heading.tabIndex = -1;
  heading.scrollIntoView({ block: "start" });
  heading.focus({ preventScroll: true });
}

if (!window.splashFollowsLinks) {
  window.splashFollowsLinks = true;
  document.addEventListener("click", follow, true);
}

// ---- the form

function buttonsOf(card, send) {
  return Object.entries(card.buttons).map(([act, words], at) => {
    const first = at === 0 && (act === "check" || act === "note");
    const button = element("button", { type: first ? "submit" : "button", class: first ? "sl-first" : null, "data-act": act }, words);
    if (!first) button.addEventListener("click", () => send(act));
    return button;
  });
}

// What changes with the numbers: head, prompt, field, buttons.
function question(card, id, hooks) {
  const field = card.buttons.check || card.buttons.note || card.field.kind === "code" ? FIELDS[card.field.kind](card.field, `${id}-answer`) : null;
  const variant = card.buttons.fresh ? element("span", {}, `numbers no. ${card.variant}`) : "";
  const solved = element("span", { class: "sl-solved", hidden: "" }, "✓ solved");
  const head = element("div", { class: "sl-head" }, element("span", { class: "sl-kicker" }, card.kicker), solved, variant);
  const buttons = element("div", { class: "sl-buttons" }, ...buttonsOf(card, hooks.send));
  const form = element("form", { novalidate: "" }, head, fromHtml("div", { class: "sl-prompt", id: `${id}-prompt` }, card.prompt));
  if (field) form.append(field.node);
  form.append(buttons);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const act = card.buttons.check ? "check" : card.buttons.note ? "note" : null;
    if (act) hooks.send(act);
  });
  form.addEventListener("input", () => hooks.typed(field.read()));
  return { form, field, solved };
}

function replyNode(reply) {
  const node = element("div", { class: "sl-reply", "data-outcome": reply.outcome });
  node.innerHTML = reply.html;
  return node;
}

function trouble(reply) {
  if (!reply.trace) return [];
  return [element("details", {}, element("summary", {}, "Details for whoever mends it"), element("pre", {}, reply.trace))];
}

// What was found stays folded until there is a prediction to hold against it.
function found(reply) {
  if (!reply.found) return [];
  const node = element("details", { class: "sl-found" }, element("summary", {}, "What was found"), fromHtml("div", {}, reply.found));
  node.open = reply.outcome !== "told";
  return [node];
}

function render({ model, el }) {
  const id = `sl-${Math.random().toString(36).slice(2, 10)}`;
  const root = element("section", { class: "sl-form", role: "group" });
  // Live regions stand in the page from the start; only their content changes.
  const said = element("div", { class: "sl-said", role: "status", "aria-live": "polite" });
  const helped = element("div", { class: "sl-helped", role: "log", "aria-label": "Hints and worked solution" });
  const alert = element("div", { class: "sl-alert", role: "alert" });
  let shown = null;
  let patience = 0;

  const phase = (name) => { root.dataset.phase = name; };
  const notice = (text) => { if (alert.textContent !== text) alert.textContent = text; };
  const gone = () => {
    phase("gone");
    notice(WORDS.gone);
    for (const node of root.querySelectorAll("button, input, select")) node.disabled = true;
  };

  function send(act) {
    phase("asked");
    clearTimeout(patience);
    patience = setTimeout(() => { phase("slow"); notice(WORDS.slow); }, PATIENCE);
    try {
      model.send({ act, answer: shown.field ? shown.field.read() : {} });
    } catch {
      clearTimeout(patience);
      gone();
    }
  }

  function showCard() {
    const card = model.get("card");
    const focus = root.contains(document.activeElement) ? document.activeElement.dataset.act : null;
    // A typed answer outlives a view that JupyterLab takes out of the page; it belongs to one set of numbers.
    const typed = (answer) => model.set("typed", { variant: card.variant, answer });
    const next = question(card, id, { send, typed });
    if (shown) shown.form.replaceWith(next.form);
    else root.prepend(next.form);
    shown = next;
    root.dataset.mode = card.mode;
    root.setAttribute("aria-label", `${card.kicker} ${card.name}`);
    shown.solved.hidden = !model.get("reply").solved;
    const kept = model.get("typed");
    if (shown.field && kept && kept.variant === card.variant) shown.field.write(kept.answer);
    if (focus) root.querySelector(`[data-act="${focus}"]`)?.focus();
  }

  function showReply() {
    const reply = model.get("reply");
    clearTimeout(patience);
    notice("");
    said.replaceChildren(...(reply.html ? [replyNode(reply), ...trouble(reply)] : []));
    helped.replaceChildren(...(reply.helps || []).map(replyNode), ...found(reply));
    root.dataset.outcome = reply.outcome || "";
    shown.solved.hidden = !reply.solved;
    phase("rest");
  }

  model.on("change:card", showCard);
  model.on("change:reply", showReply);
  showCard();
  root.append(said, helped, alert);
  showReply();
  keepKeys(root);
  el.append(root);

  // Told by the widget manager when the kernel is restarted; after that nothing is heard any more.
  model.on("comm_live_update", gone);
  hideStill(model.get("still"), el);

  return () => {
    clearTimeout(patience);
    model.off("comm_live_update", gone);
    model.off("change:card", showCard);
    model.off("change:reply", showReply);
  };
}

export default { render };
