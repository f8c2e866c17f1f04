// Where the learner stands, at the head of a lesson. Its text was made and escaped in Python.
// Run All Cells takes the page to its end, to the card that tells how all turns out; the head keeps it at the top.

const LOOK = 50; // ms from one look to the next
const QUIET = 800; // ms without work, then the cells have run
const LONGEST = 60000; // ms
const HANDS = ["wheel", "touchstart", "pointerdown", "keydown"];
let kept = false; // once for each run of the cell; a view may come and go

// The notebook that this stands in, also while JupyterLab has not put it onto the page.
function notebookOf(el) {
  const open = [...document.querySelectorAll(".jp-Notebook")].filter((each) => each.clientHeight > 0);
  return el.closest(".jp-Notebook") || (open.length === 1 ? open[0] : null);
}

// The part of a notebook that scrolls.
function scrolled(notebook) {
  const inner = [notebook, ...notebook.querySelectorAll(".jp-WindowedPanel-outer")];
  return inner.find((each) => each.scrollTop > 0);
}

function keepTop(model, el) {
  if (kept) return;
  kept = true;
  const kernel = model.widget_manager?.kernel;
  let quiet = 0;
  let waited = 0;
  const end = () => {
    clearInterval(timer);
    for (const name of HANDS) window.removeEventListener(name, end, true);
    delete document.body.dataset.slRunning;
  };
  const timer = setInterval(() => {
    const notebook = notebookOf(el);
    const page = notebook && scrolled(notebook);
    if (page) page.scrollTop = 0;
    quiet = kernel && kernel.status !== "idle" ? 0 : quiet + LOOK;
    waited += LOOK;
    if (quiet < QUIET && waited < LONGEST) return;
    end();
    // The first cell becomes the one at hand: an arrow key goes on from there.
    const first = notebook?.querySelector(".jp-Cell");
    if (first) first.dispatchEvent(new MouseEvent("mousedown", { bubbles: true, button: 0 }));
  }, LOOK);
  for (const name of HANDS) window.addEventListener(name, end, { capture: true, passive: true });
  document.body.dataset.slRunning = "";
}

function render({ model, el }) {
  const root = element("section", { class: "sl-standing", role: "status", "aria-live": "polite", "aria-label": "Where you stand" });
  const show = () => { root.innerHTML = model.get("html"); };
  model.on("change:html", show);
  show();
  el.append(root);
  hideStill(model.get("still"), el);
  keepTop(model, el);
  return () => model.off("change:html", show);
}

export default { render };
