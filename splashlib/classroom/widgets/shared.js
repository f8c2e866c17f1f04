// What every front end of the course uses; it stands before each of their scripts.

function element(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== undefined && value !== null) node.setAttribute(name, value);
  }
  node.append(...children);
  return node;
}

function setText(node, text) {
  // Untouched text is left alone: a screen reader would speak a live region again.
  if (node.textContent !== text) node.textContent = text;
}

// JupyterLab would take plain keys for itself: arrows move the cell, "a" adds one. Keys with Ctrl, Alt or the
// command key, and Shift+Enter to run a cell, still reach it.
function keepKeys(root) {
  root.addEventListener("keydown", (event) => {
    const command = event.ctrlKey || event.metaKey || event.altKey;
    const run = event.key === "Enter" && event.shiftKey;
    if (!command && !run) event.stopPropagation();
  });
}

// What viewers without Python see stands beside the live widget in the notebook; where the widget is shown, that is
// hidden, as long as the widget is on the page.
function hideStill(name, el) {
  if (name) el.append(element("style", {}, `[data-splash-still="${name}"] { display: none; }`));
}
