// Picture and handles together in sight, however low or narrow the page is.
//
// JupyterLab's outputs clip, so nothing can stick to the window there. The panel is laid out to fit the sight
// instead: the picture is limited by what is seen of the page at once, and the handles scroll beside or under it.

const EDGE = 8; // px between the panel's stage and the edge of the sight
const GAP = 28; // px between picture and handles
const LEAST_STAGE = 150; // px; less is no picture
const ROOM_BELOW = 260; // px for the handles under a picture, where the page is high enough
const LOW = 400; // px of stage; below it steps and handles scroll together
const MOST_NATURAL = 1.3; // the picture is drawn at most so much larger than it was made

// The nearest thing around the panel that scrolls.
function scrollerOf(node) {
  for (let at = node.parentElement; at; at = at.parentElement) {
    const flow = getComputedStyle(at).overflowY;
    const scrolls = at.scrollHeight > at.clientHeight + 8 || at.clientHeight > node.offsetHeight + 200;
    if ((flow === "auto" || flow === "scroll") && scrolls) return at;
  }
  return document.scrollingElement;
}

// Top and bottom of what is seen of the page, in the window.
function sightOf(page) {
  if (page.root.matches(":popover-open") || document.fullscreenElement === page.root) {
    return { box: page.root, top: 0, bottom: window.innerHeight };
  }
  const box = scrollerOf(page.root);
  const { top } = box === document.scrollingElement ? { top: 0 } : box.getBoundingClientRect();
  return { box, top: Math.max(0, top), bottom: Math.min(window.innerHeight, top + box.clientHeight) };
}

// Beside or under: whichever leaves the larger picture.
function arrange({ wide, stage, foot, ratio, natural }) {
  const side = Math.min(330, Math.max(190, 0.27 * wide));
  const most = Math.min(wide, natural * MOST_NATURAL);
  const beside = Math.min(most, wide - side - GAP, (stage - foot) * ratio);
  const under = Math.min(most, (Math.max(stage / 2, stage - ROOM_BELOW) - foot) * ratio);
  return beside >= 0.9 * under ? { layout: "beside", width: beside } : { layout: "under", width: under };
}

function fit(page) {
  const { top, bottom } = sightOf(page);
  const wide = page.body.clientWidth;
  if (!wide) return;
  const [width, height] = page.size;
  const stage = Math.max(LEAST_STAGE, bottom - top - 2 * EDGE);
  const style = page.body.style;
  style.setProperty("--stage", `${Math.floor(stage)}px`);
  const low = stage < LOW;
  page.root.toggleAttribute("data-low", low);
  // The verdict under the picture wraps as the picture gets narrower; the second turn knows how high it is then.
  // Where the sight is too low for both, the verdict is scrolled to.
  for (let turn = 0; turn < 2; turn += 1) {
    const foot = low ? 0 : page.line.offsetHeight + 12;
    const place = arrange({ wide, stage, foot, ratio: width / height, natural: width });
    page.root.dataset.layout = place.layout;
    const shown = Math.max(80, Math.floor(place.width));
    style.setProperty("--picture", `${shown}px`);
    style.setProperty("--side", `${Math.max(0, wide - shown - GAP)}px`);
  }
  if (page.root.dataset.layout === "under") {
    style.setProperty("--stage", `${Math.max(120, Math.floor(stage - page.figure.offsetHeight - 12))}px`);
  }
}

// Scroll the page, as little as possible, until picture and handles are seen whole.
function intoSight(page) {
  const { box, top, bottom } = sightOf(page);
  const picture = page.image.getBoundingClientRect();
  const side = page.side.getBoundingClientRect();
  const over = picture.top - top - EDGE / 2;
  const below = Math.max(picture.bottom, side.bottom) - bottom + EDGE / 2;
  const way = over < 0 ? over : Math.min(Math.max(0, below), over);
  if (Math.abs(way) > 1) box.scrollTop += way;
}

// Inside the column of handles, the one that has the focus is not left behind a line that has come up.
function keepFocusSeen(page) {
  const active = document.activeElement;
  if (!page.scroll.contains(active)) return;
  const node = active.closest(".splash-control, .splash-tools") || active;
  const box = page.root.hasAttribute("data-low") ? page.side : page.scroll;
  const seen = box.getBoundingClientRect();
  const here = node.getBoundingClientRect();
  const high = here.height > seen.height ? active.getBoundingClientRect() : here;
  if (high.top < seen.top) box.scrollTop -= seen.top - high.top;
  else if (high.bottom > seen.bottom) box.scrollTop += high.bottom - seen.bottom;
}

function followFocus(page) {
  let held = false;
  const settle = () => requestAnimationFrame(() => { keepFocusSeen(page); intoSight(page); });
  page.side.addEventListener("pointerdown", () => { held = true; });
  // Nothing moves under a hand that drags; when it lets go, the picture comes into sight.
  const letGo = () => { if (held) { held = false; settle(); } };
  document.addEventListener("pointerup", letGo);
  document.addEventListener("pointercancel", letGo);
  page.side.addEventListener("focusin", () => { if (!held) settle(); });
  return () => {
    document.removeEventListener("pointerup", letGo);
    document.removeEventListener("pointercancel", letGo);
  };
}
