// The card at a lesson's end: a table of decisions, and a button that writes them into the learner's file.

const GONE = "Python was stopped or restarted. Run the notebook again: menu Run, Run All Cells.";

function row([label, inFile, chosen, fresh]) {
  const cell = element("td", {}, element("span", { class: "splash-kept" }, chosen));
  cell.append(" ", element("span", { class: fresh ? "splash-new" : "splash-same" }, fresh ? "new" : "the same"));
  return element("tr", {}, element("th", { scope: "row" }, label), element("td", {}, inFile), cell);
}

function render({ model, el }) {
  const id = `splash-${Math.random().toString(36).slice(2, 10)}`;
  const heads = ["Decision", "In your file", "From this lesson"].map((text) => element("th", { scope: "col" }, text));
  const body = element("tbody");
  const doubt = element("div", { class: "splash-doubt" });
  const changed = element("div", { class: "splash-changed" });
  const button = element("button", { type: "button", class: "splash-write" });
  const said = element("div", { class: "splash-said", role: "status" });
  const error = element("div", { class: "splash-alert", role: "alert" });
  const table = element("table", { class: "splash-table", "aria-labelledby": id },
    element("thead", {}, element("tr", {}, ...heads)), body);
  const root = element("section", { class: "splash-keep", role: "group", "aria-labelledby": id },
    element("div", { class: "splash-title", id }, "Your set-up"), table, doubt, changed, button, said, error);

  const show = () => {
    const state = model.get("state");
    body.replaceChildren(...state.rows.map(row));
    setText(doubt, state.doubt ? `! The panel says: ${state.doubt}` : "");
    setText(changed, state.changed ? `! ${state.changed}` : "");
    setText(button, `Write into ${state.file}`);
    setText(said, state.said);
    setText(error, state.error);
    button.disabled = false;
  };
  const send = (content) => {
    try {
      model.send(content);
    } catch {
      gone();
    }
  };
  const look = () => send({ look: true });
  const gone = () => {
    button.disabled = true;
    setText(error, GONE);
  };

  button.addEventListener("click", () => send({ write: true }));
  // What the lesson decided may have changed since: look again whenever the card comes into view or is touched.
  root.addEventListener("pointerenter", look);
  root.addEventListener("focusin", look);
  const seen = new IntersectionObserver((entries) => { if (entries.some((entry) => entry.isIntersecting)) look(); });
  seen.observe(root);

  keepKeys(root);
  model.on("change:state", show);
  model.on("comm_live_update", gone);
  show();
  hideStill(model.get("still"), el);
  el.append(root);
  return () => {
    model.off("change:state", show);
    seen.disconnect();
    model.off("comm_live_update", gone);
  };
}

export default { render };
