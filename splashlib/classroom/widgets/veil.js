// The veil over what a panel tells, until a guess is noted or waived. The style sheet hides; this says so, and lifts it.

function veiling(model, page, lifted) {
  const said = element("span");
  const button = element("button", { type: "button", class: "splash-button" }, "Show without a guess");
  const note = element("div", { class: "splash-veil", role: "note" }, said, button);
  page.root.querySelector(".splash-body").before(note);

  function show() {
    const words = model.get("veil");
    const before = page.veiled;
    page.veiled = Boolean(words);
    setText(said, words);
    note.hidden = !words;
    page.root.toggleAttribute("data-veiled", page.veiled);
    // The text beside the picture tells the answer too.
    if (page.veiled) page.image.setAttribute("aria-hidden", "true");
    else page.image.removeAttribute("aria-hidden");
    page.enlarge.disabled = page.veiled;
    if (before && !page.veiled) lifted();
  }

  button.addEventListener("click", () => {
    model.set("waived", true);
    try { model.save_changes(); } catch { /* Python is gone: the veil is lifted here all the same. */ }
    model.set("veil", "");
    show();
    page.line.tabIndex = -1;
    page.line.focus();
  });
  model.on("change:veil", show);
  show();
  return () => model.off("change:veil", show);
}
