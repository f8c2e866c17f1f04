// Where the learner stands, at the head of a lesson. Its text was made and escaped in Python.

function render({ model, el }) {
  const root = element("section", { class: "sl-standing", role: "status", "aria-live": "polite", "aria-label": "Where you stand" });
  const show = () => { root.innerHTML = model.get("html"); };
  model.on("change:html", show);
  show();
  el.append(root);
  hideStill(model.get("still"), el);
  return () => model.off("change:html", show);
}

export default { render };
