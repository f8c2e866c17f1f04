// The panel: labelled native controls, one picture, and what it says in words.
//
// One request is under way at a time. What is moved meanwhile is gathered, and only the newest value is sent:
// no queue of old pictures can build up. Each answer carries the number of its request and one encoded picture.

const EMPTY = "data:image/gif;base64,R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw==";
const REST = 200; // ms without a move, then the full picture is asked for
const MANY_TICKS = 31; // up to this many positions are marked under a slider
const PATIENCE = 5000; // ms without an answer, then the panel says so

const WORDS = {
  slow: "Python has not answered yet. It may be busy with another cell. If it was stopped or restarted, run the notebook again: menu Run, Run All Cells.",
  gone: "Python was stopped or restarted, so this panel rests. Run the notebook again: menu Run, Run All Cells.",
  kept: "Picture and words still show the last set-up that was possible.",
};

// ---- controls: each one has set(at, text) and tells `moved(name, at)`

function rangeControl(spec, id, moved, typed) {
  const input = element("input", {
    type: "range", id, min: 0, max: spec.texts.length - 1, step: 1, class: "splash-range",
  });
  // What the slider stands at, and a field to type it in.
  const value = element("input", {
    type: "text", class: "splash-value", "aria-label": `${spec.label}, typed`, autocomplete: "off", spellcheck: "false", maxlength: 60,
  });
  const ends = element("div", { class: "splash-ends", "aria-hidden": "true" });
  let texts = spec.texts;
  let shown = "";
  const show = (text) => {
    // What is being typed is not written over by an answer to something else.
    const focused = document.activeElement === value;
    if (!focused || value.value === shown) {
      value.value = text;
      // The next number that is typed takes its place.
      if (focused) value.select();
    }
    shown = text;
    value.style.width = `${Math.max(4, text.length) + 1.5}ch`;
    input.setAttribute("aria-valuetext", text);
    const share = input.max > 0 ? input.value / input.max : 0;
    input.style.setProperty("--share", share);
  };
  const name = (list) => {
    texts = list;
    ends.replaceChildren(element("span", {}, texts[0]), element("span", {}, texts[texts.length - 1]));
  };
  input.addEventListener("input", () => {
    show(texts[Number(input.value)]);
    moved(spec.name, Number(input.value));
  });
  value.addEventListener("focus", () => value.select());
  value.addEventListener("change", () => {
    const text = value.value;
    value.value = shown;
    if (document.activeElement === value) value.select();
    if (text.trim() && text !== shown) typed(spec.name, text);
  });
  value.addEventListener("keydown", (event) => {
    if (event.key === "Escape") value.value = shown;
  });
  name(texts);
  const node = element("div", { class: "splash-control splash-slider", "data-name": spec.name },
    element("label", { for: id }, spec.label), input, value);
  if (texts.length <= MANY_TICKS) {
    const ticks = texts.map(() => element("i"));
    node.append(element("div", { class: "splash-ticks", "aria-hidden": "true" }, ...ticks));
  }
  node.append(ends);
  return { node, name, set(at, text) { input.value = at; show(text); } };
}

function radioControl(spec, id, moved) {
  const inputs = spec.texts.map((_, at) => {
    const input = element("input", { type: "radio", name: id, value: at, id: `${id}-${at}` });
    input.addEventListener("change", () => moved(spec.name, at));
    return input;
  });
  const choices = inputs.map((input, at) =>
    element("label", { class: "splash-choice", for: `${id}-${at}` }, input, element("span", {}, spec.texts[at])));
  const node = element("fieldset", { class: "splash-control splash-radios", "data-name": spec.name },
    element("legend", {}, spec.label), ...choices);
  return { node, name() {}, set(at) { inputs[at].checked = true; } };
}

function selectControl(spec, id, moved) {
  const options = spec.texts.map((text, at) => element("option", { value: at }, text));
  const input = element("select", { id, class: "splash-select" }, ...options);
  input.addEventListener("change", () => moved(spec.name, Number(input.value)));
  const node = element("div", { class: "splash-control", "data-name": spec.name },
    element("div", { class: "splash-row" }, element("label", { for: id }, spec.label)), input);
  return { node, name() {}, set(at) { input.value = at; } };
}

function checkControl(spec, id, moved) {
  const input = element("input", { type: "checkbox", id });
  input.addEventListener("change", () => moved(spec.name, Number(input.checked)));
  const node = element("div", { class: "splash-control", "data-name": spec.name },
    element("label", { class: "splash-choice", for: id }, input, element("span", {}, spec.label)));
  return { node, name() {}, set(at) { input.checked = Boolean(at); } };
}

// A handle that changes nothing as things stand rests, and says why.
function rest(node, why) {
  let note = node.querySelector(".splash-idle");
  if (!note && !why) return;
  if (!note) {
    note = element("div", { class: "splash-idle" });
    node.append(note);
  }
  setText(note, why);
  node.toggleAttribute("data-idle", Boolean(why));
  for (const input of node.querySelectorAll("input, select")) input.disabled = Boolean(why);
}

const KINDS = { range: rangeControl, radio: radioControl, select: selectControl, check: checkControl };

// ---- the page of one panel

function build(spec, id, link) {
  const page = { controls: {} };
  for (const [number, each] of spec.controls.entries()) {
    page.controls[each.name] = KINDS[each.kind](each, `${id}-c${number}`, link.moved, link.typed);
  }
  const [width, height] = spec.size;
  // An image that has neither source nor text gets no box, and Chromium may forget to give it one later.
  page.image = element("img", { class: "splash-picture", width, height, decoding: "sync", alt: "picture", src: EMPTY });
  page.image.style.aspectRatio = `${width} / ${height}`;
  page.sign = element("span", { class: "splash-sign", "aria-hidden": "true" });
  page.said = element("span");
  page.line = element("figcaption", { class: "splash-line" }, page.sign, page.said);
  page.alert = element("div", { class: "splash-alert", role: "alert" });
  page.trace = element("pre");
  page.fold = element("details", { class: "splash-trace" }, element("summary", {}, "Details for whoever mends it"), page.trace);
  page.trouble = element("div", { class: "splash-trouble" });
  page.enlarge = element("button", { type: "button", class: "splash-button" }, "Enlarge the picture");
  page.notes = element("ul", { class: "splash-notes", "aria-label": "Notes" });
  page.spoken = element("div", { class: "splash-hidden", role: "status", "aria-live": "polite" });
  page.readout = element("dl", { class: "splash-readout" });
  page.reset = element("button", { type: "button", class: "splash-button" }, "Back to the start values");
  page.reset.addEventListener("click", () => link.ask({ reset: true }));
  page.units = element("select", { id: `${id}-units`, class: "splash-select" },
    ...spec.systems.map(([value, text]) => element("option", { value }, text)));
  page.units.addEventListener("change", () => link.ask({ system: page.units.value }));
  const tools = element("div", { class: "splash-tools" }, page.reset,
    element("span", { class: "splash-units" }, element("label", { for: `${id}-units` }, "Units"), page.units),
    page.enlarge);
  page.set = element("fieldset", { class: "splash-set" }, element("legend", { class: "splash-hidden" }, "What you can change"),
    ...Object.values(page.controls).map((control) => control.node), tools);
  if (spec.steps?.length) page.steps = stepsOf(spec.steps, link.step);
  page.size = spec.size;
  page.root = frame(page, spec, id);
  return page;
}

function frame(page, spec, id) {
  page.figure = element("figure", { class: "splash-figure" }, page.image, page.line);
  page.scroll = element("div", { class: "splash-scroll" }, page.set);
  page.side = element("div", { class: "splash-side" }, ...(page.steps ? [page.steps.node] : []), page.scroll, page.alert);
  const words = element("div", { class: "splash-words" }, page.fold, page.notes);
  page.body = element("div", { class: "splash-body" }, page.figure, page.side, words, page.readout);
  const root = element("section", { class: "splash", role: "group", "aria-label": spec.title || "Panel" });
  if (spec.title) {
    root.removeAttribute("aria-label");
    root.setAttribute("aria-labelledby", `${id}-title`);
    root.append(element("div", { class: "splash-title", id: `${id}-title` }, spec.title));
  }
  root.append(page.trouble, page.body, page.spoken);
  return root;
}

function tell(page, state) {
  for (const [name, [at, text]] of Object.entries(state.controls)) page.controls[name].set(at, text);
  page.units.value = state.system;
  while (page.readout.children.length > state.readout.length) page.readout.lastChild.remove();
  state.readout.forEach(([label, value], index) => {
    if (!page.readout.children[index]) {
      page.readout.append(element("div", {}, element("dt"), element("dd")));
    }
    const [dt, dd] = page.readout.children[index].children;
    setText(dt, label);
    setText(dd, value);
  });
  setText(page.trouble, state.trouble ? `! ${state.trouble}` : "");
  setText(page.said, state.line);
  page.line.dataset.tone = state.tone;
  page.image.alt = state.alt;
  page.root.toggleAttribute("data-kept", Boolean(state.error));
  const kept = state.kept ? WORDS.kept : "";
  setText(page.alert, state.error ? `${state.error} ${kept}`.trim() : state.stopped);
  for (const [name, control] of Object.entries(page.controls)) rest(control.node, state.idle[name] || "");
  setText(page.trace, state.trace);
  page.fold.hidden = !state.trace;
  page.notes.replaceChildren(...state.notes.map((note) => element("li", {}, note)));
}

// What has grown stays grown, so that the page below does not jump while words get longer and shorter.
function holdHeights(page) {
  let grown = false;
  for (const node of [page.line, page.readout]) {
    const height = node.offsetHeight;
    if (height > (node.held || 0)) {
      grown = node === page.line && Boolean(node.held);
      node.held = height;
      node.style.minHeight = `${height}px`;
    }
  }
  return grown;
}

function releaseHeights(page) {
  for (const node of [page.line, page.readout]) {
    node.held = 0;
    node.style.minHeight = "";
  }
}

// ---- pictures: a new one takes the place of the old one only when it is decoded

function screen(image) {
  let newest = 0;
  let url = null;
  return async function show(data) {
    const mine = ++newest;
    const type = data.getUint8(0) === 0xff ? "image/jpeg" : "image/png";
    const next = URL.createObjectURL(new Blob([data], { type }));
    const ahead = new Image();
    ahead.src = next;
    await ahead.decode().catch(() => {});
    if (mine !== newest) {
      URL.revokeObjectURL(next);
      return;
    }
    const old = url;
    url = next;
    image.src = next;
    if (old) URL.revokeObjectURL(old);
  };
}

// How many picture pixels the screen can use for each one of the plain picture, which as a rule is shown about as
// large as it was made; enlarged, it is not.
function fineness(image, large) {
  const wanted = window.devicePixelRatio * (large ? large / image.getAttribute("width") : image.clientWidth / image.width);
  return wanted <= 1.15 ? 1 : wanted <= 1.6 ? 1.5 : 2;
}

// ---- the talk with Python

function connect(model, view, hooks) {
  let waiting = {}; // moved, not sent yet
  let asked = null; // other wishes: reset, system
  let underway = 0; // the number of the request that has no answer yet
  let number = 0;
  let restTimer = 0;
  let patience = 0;
  let current = true; // the picture on show is a full one

  const idle = () => !underway && !asked && Object.keys(waiting).length === 0;

  function send(content) {
    underway = ++number;
    clearTimeout(patience);
    patience = setTimeout(() => { underway = 0; hooks.slow(); }, PATIENCE);
    try {
      model.send({ ...content, view, number, scale: hooks.scale() });
    } catch {
      underway = 0;
      clearTimeout(patience);
      hooks.gone();
    }
  }

  function pump() {
    if (underway) return;
    if (asked) {
      const wish = asked;
      asked = null;
      waiting = {};
      send({ ...wish, rest: true });
    } else if (Object.keys(waiting).length) {
      const moved = waiting;
      waiting = {};
      current = false;
      send({ moved });
    }
  }

  function restSoon() {
    clearTimeout(restTimer);
    restTimer = setTimeout(() => { if (idle() && !current) send({ rest: true }); }, REST);
  }

  function received(answer, buffers) {
    const mine = answer.view === view;
    if (mine && answer.number !== number) return;
    if (mine) {
      underway = 0;
      clearTimeout(patience);
    }
    // A control that moved on meanwhile keeps its place under the hand.
    const places = Object.entries(answer.controls).filter(([name]) => !(name in waiting));
    const state = { ...answer, controls: Object.fromEntries(places) };
    if (answer.rest) current = true;
    hooks.show(state, buffers[0], { mine, settled: answer.rest && idle() });
    pump();
    if (!current) restSoon();
  }

  model.on("msg:custom", received);
  return {
    moved(name, at) {
      waiting[name] = at;
      hooks.busy();
      clearTimeout(restTimer);
      pump();
    },
    ask(wish) {
      asked = { ...asked, ...wish };
      hooks.busy();
      pump();
    },
    stop() {
      clearTimeout(restTimer);
      clearTimeout(patience);
      model.off("msg:custom", received);
    },
  };
}

// ---- one view of the panel

function changes(before, state) {
  const old = new Map(before.readout);
  const fresh = state.readout.filter(([label, value]) => old.get(label) !== value);
  return [state.line, ...fresh.map(([label, value]) => `${label}: ${value}`)].filter(Boolean).join(". ");
}

function mount({ model, el }) {
  const spec = model.get("spec");
  const id = `splash-${Math.random().toString(36).slice(2, 10)}`;
  let link = null;
  let spoken = model.get("state");
  const page = build(spec, id, {
    moved: (...all) => link.moved(...all),
    ask: (...all) => link.ask(...all),
    typed: (name, text) => link.ask({ typed: { [name]: text } }),
    step(at) {
      model.set("step", at);
      model.save_changes();
      page.steps.show(at);
    },
  });
  const show = screen(page.image);
  const large = enlargeable(page, () => { if (!page.set.disabled) link.ask({}); });
  const onStep = () => page.steps?.show(model.get("step"));
  const phase = (name) => { page.root.dataset.phase = name; };

  const notice = (text) => {
    page.notice = text;
    setText(page.alert, text);
  };
  const gone = () => { page.set.disabled = true; phase("gone"); notice(WORDS.gone); };

  link = connect(model, id, {
    scale: () => fineness(page.image, large.size()),
    busy: () => { if (!page.set.disabled) phase("moving"); },
    slow: () => { phase("slow"); notice(WORDS.slow); },
    gone,
    show(state, data, { mine, settled }) {
      for (const [name, texts] of Object.entries(state.texts || {})) page.controls[name].name(texts);
      tell(page, state);
      if (holdHeights(page)) fit(page);
      keepFocusSeen(page);
      if (data) show(data);
      page.root.dataset.took = state.took;
      if (!settled) return;
      phase("rest");
      if (mine && !state.hello && !state.error && !page.veiled) setText(page.spoken, changes(spoken, state));
      spoken = state;
    },
  });

  tell(page, model.get("state"));
  onStep();
  model.on("change:step", onStep);
  const forgetFocus = followFocus(page);
  const first = model.get("picture");
  if (first && first.byteLength) show(first);
  phase("moving");
  keepKeys(page.root);
  el.append(page.root);
  const unveil = veiling(model, page, () => { releaseHeights(page); fit(page); holdHeights(page); fit(page); });
  holdHeights(page);

  let width = 0;
  let sight = 0;
  const refit = () => {
    const { top, bottom } = sightOf(page);
    if (page.root.clientWidth === width && Math.abs(bottom - top - sight) < 2) return;
    // Only now, on the page, is it known how fine a picture the screen can use.
    const hello = !width && page.root.clientWidth && !page.set.disabled;
    [width, sight] = [page.root.clientWidth, bottom - top];
    releaseHeights(page);
    fit(page);
    holdHeights(page);
    fit(page);
    if (hello) link.ask({ hello: true, have: model.get("state").picture });
  };
  const sizes = new ResizeObserver(refit);
  sizes.observe(page.root);
  window.addEventListener("resize", refit);

  // Told by the widget manager when the kernel is restarted; after that nothing is heard any more.
  model.on("comm_live_update", gone);
  hideStill(model.get("still"), el);

  return () => {
    link.stop();
    unveil();
    sizes.disconnect();
    forgetFocus();
    window.removeEventListener("resize", refit);
    model.off("change:step", onStep);
    model.off("comm_live_update", gone);
  };
}
