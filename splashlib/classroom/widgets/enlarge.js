// The picture as large as the window: by a click on it or by its button; Escape, a click or its button closes it.

function enlargeable(page, changed) {
  const close = element("button", { type: "button", class: "splash-button" }, "Close");
  const dialog = element("dialog", { class: "splash-large", "aria-label": "The picture, enlarged" }, close);
  let large = null;
  const follow = () => {
    if (!large) return;
    large.src = page.image.src;
    large.alt = page.image.alt;
  };
  const open = () => {
    if (dialog.open) return;
    large = element("img", { src: page.image.src, alt: page.image.alt });
    large.style.aspectRatio = page.image.style.aspectRatio;
    large.addEventListener("click", () => dialog.close());
    dialog.prepend(large);
    dialog.showModal();
    changed();
  };
  dialog.style.setProperty("--ratio", page.size[0] / page.size[1]);
  dialog.addEventListener("close", () => {
    large?.remove();
    large = null;
  });
  close.addEventListener("click", () => dialog.close());
  page.image.addEventListener("load", follow);
  page.image.addEventListener("click", open);
  page.enlarge.addEventListener("click", open);
  page.root.append(dialog);
  return { size: () => large && large.clientWidth };
}
