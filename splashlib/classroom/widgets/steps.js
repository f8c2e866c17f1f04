// What to try, step by step, beside the picture: one step at a time, the one at hand marked.

function stepsOf(list, told) {
  const marks = list.map((_, at) => {
    const mark = element("button", { type: "button", class: "splash-mark", "aria-label": `Step ${at + 1}` }, `${at + 1}`);
    mark.addEventListener("click", () => told(at));
    return mark;
  });
  const text = element("div", { class: "splash-step", "aria-live": "polite" });
  const back = element("button", { type: "button", class: "splash-turn", "aria-label": "Step back" }, "‹");
  const next = element("button", { type: "button", class: "splash-turn", "aria-label": "Next step" }, "›");
  const head = element("div", { class: "splash-marks" }, back, ...marks, next);
  const node = element("div", { class: "splash-steps", role: "group", "aria-label": "What to try, step by step" }, head, text);
  let here = 0;
  const turn = (way) => told(Math.min(list.length - 1, Math.max(0, here + way)));
  back.addEventListener("click", () => turn(-1));
  next.addEventListener("click", () => turn(1));
  return {
    node,
    show(at) {
      here = Math.min(list.length - 1, Math.max(0, at));
      setText(text, list[here]);
      marks.forEach((mark, number) => {
        if (number === here) mark.setAttribute("aria-current", "step");
        else mark.removeAttribute("aria-current");
      });
      // A button that cannot go on stays where it is: one that is taken away loses the focus.
      back.setAttribute("aria-disabled", String(here === 0));
      next.setAttribute("aria-disabled", String(here === list.length - 1));
    },
  };
}
