// On the second day a panel can begin from the scene of the course or from the learner's own set-up: a switch, and
// the page built anew where it is thrown, since the ranges of the handles differ.

function originSwitch(model, throwTo) {
  const { now, file } = model.get("origin");
  const id = `origin-${Math.random().toString(36).slice(2, 10)}`;
  const words = { scene: "the scene of the course", mine: `mine, ${file}` };
  const choices = Object.entries(words).map(([name, text]) => {
    const input = element("input", { type: "radio", name: id, value: name });
    input.checked = name === now;
    input.addEventListener("change", () => throwTo(name));
    return element("label", { class: "splash-choice" }, input, element("span", {}, text));
  });
  return element("fieldset", { class: "splash-origin" }, element("legend", {}, "This panel begins from"), ...choices);
}

function render({ model, el }) {
  let clean = null;
  function show() {
    const held = el.querySelector(".splash-origin")?.contains(document.activeElement);
    if (clean) clean();
    el.replaceChildren();
    clean = mount({ model, el });
    if (!model.get("origin").now) return;
    const node = originSwitch(model, (name) => {
      model.set("chosen", name);
      model.save_changes();
    });
    el.querySelector(".splash-body").before(node);
    if (held) node.querySelector("input:checked").focus();
  }
  show();
  model.on("change:origin", show);
  return () => {
    model.off("change:origin", show);
    clean();
  };
}

export default { render };
