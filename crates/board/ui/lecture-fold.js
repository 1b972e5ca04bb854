// What of a step lies beyond the edges of the window, and how far the sheet goes to bring it into sight: always by less
// than a window, and so that no line is cut in two.

/** Parts that reach this far beyond an edge still count as seen, px: it is the room around their letters. */
const FOLD_SLACK = 6;

/**
 * The parts of a step from top to bottom, as they lie in the window: drawings, captions, fields, equations, paragraphs.
 * What is folded up, and what is not shown, is none of them.
 * @param {Element} step a step, a question, or a whole scene
 * @returns {{top: number, bottom: number}[]}
 */
function foldParts(step) {
  const blocks = ".plate, figcaption, .fields, .piece > *, .equation, h2, h3, p, li, tr, details[open]";
  const found = [...step.querySelectorAll(blocks)].filter((part) => !part.closest("svg, .grips, .plate .piece, details:not([open]), [hidden]"));
  const lowest = found.filter((part) => !part.querySelector(blocks) || part.matches(".plate, .fields"));
  const boxes = (lowest.length > 0 ? lowest : [step]).flatMap((part) => {
    const box = part.getBoundingClientRect();
    return part.matches(".plate") && box.height > 0.85 * innerHeight ? foldBands(part) : [box];
  });
  return boxes.filter(({ height }) => height > 0).sort((one, other) => one.top - other.top);
}

/**
 * A drawing that is higher than the window is read band by band: what stands beside one another in it is one.
 * @param {Element} plate
 * @returns {{top: number, bottom: number, height: number}[]}
 */
function foldBands(plate) {
  const box = plate.getBoundingClientRect();
  const groups = [...plate.querySelectorAll("svg:not(.ink) > g")].map((group) => group.getBoundingClientRect());
  groups.sort((one, other) => one.top - other.top);
  /** @type {{top: number, bottom: number, height: number}[]} */
  const bands = [];
  for (const { top, bottom } of groups.length > 0 ? groups : [box]) {
    const last = bands.at(-1);
    if (last && top < last.bottom) Object.assign(last, { bottom: Math.max(last.bottom, bottom), height: Math.max(last.bottom, bottom) - last.top });
    else bands.push({ top, bottom, height: bottom - top });
  }
  // The room above the first and below the last belongs to them.
  Object.assign(bands[0], { top: box.top, height: bands[0].bottom - box.top });
  const end = bands[bands.length - 1];
  Object.assign(end, { bottom: box.bottom, height: box.bottom - end.top });
  return bands;
}

/**
 * How far the sheet must go so that what of a step lies below the window comes into sight; 0 where nothing does.
 * @param {Element} step
 * @param {{top: number, bottom: number}} free the part of the window that no bar covers, px
 * @returns {number} px downwards
 */
function foldBelow(step, { top, bottom }) {
  const parts = foldParts(step);
  const cut = parts.filter((part) => part.bottom > bottom + FOLD_SLACK);
  if (cut.length === 0) return 0;
  const rest = Math.max(...parts.map((part) => part.bottom)) - bottom;
  // What begins in the window is read from its beginning; what fills the window, window by window.
  const first = cut.find((part) => part.top - top > FOLD_SLACK);
  const far = first ? Math.min(first.top - top, Math.max(0.9 * (bottom - top), cut[0].top - top)) : 0.8 * (bottom - top);
  return Math.min(far, Math.max(rest, cut[0].top - bottom));
}

/**
 * The same for what lies above the window.
 * @param {Element} step
 * @param {{top: number, bottom: number}} free
 * @returns {number} px upwards
 */
function foldAbove(step, { top, bottom }) {
  const parts = foldParts(step).sort((one, other) => other.bottom - one.bottom);
  const cut = parts.filter((part) => part.top < top - FOLD_SLACK);
  if (cut.length === 0) return 0;
  const rest = top - Math.min(...parts.map((part) => part.top));
  const last = cut.find((part) => bottom - part.bottom > FOLD_SLACK);
  const far = last ? Math.min(bottom - last.bottom, Math.max(0.9 * (bottom - top), bottom - cut[0].bottom)) : 0.8 * (bottom - top);
  return Math.min(far, Math.max(rest, top - cut[0].bottom));
}

/**
 * Takes the sheet of a lecture to its places.
 * @param {HTMLElement} root the element that says how much of the window the bars cover
 */
function lectureWay(root) {
  /** Where the sheet is on its way to, px, and till when it may be on it, ms. */
  const aim = { top: 0, until: 0 };
  // A reader's own hand ends every way.
  for (const kind of ["wheel", "touchmove"]) document.addEventListener(kind, () => (aim.until = 0), { passive: true });

  /** The part of the window that no bar covers, px; a little air is left to the bars. @returns {{top: number, bottom: number}} */
  function free() {
    const covered = (/** @type {string} */ name) => parseFloat(root.style.getPropertyValue(name)) || 0;
    return { top: covered("--lecture-above") + covered("--ink-height") + 12, bottom: innerHeight - covered("--lecture-below") - 12 };
  }

  /** Takes the sheet to a place. @param {number} top px of the page @param {boolean} [atOnce] */
  function goTo(top, atOnce = false) {
    const still = atOnce || matchMedia("(prefers-reduced-motion: reduce)").matches;
    Object.assign(aim, { top, until: still ? 0 : performance.now() + 1500 });
    scrollTo({ top, behavior: still ? "instant" : "smooth" });
  }

  /** Ends a way that the sheet is still on, so that what is seen can be told. */
  function arrive() {
    if (performance.now() < aim.until) scrollTo({ top: aim.top, behavior: "instant" });
    aim.until = 0;
  }

  /**
   * Brings a part into sight: its start to the top, its end to the bottom, or the nearest of the two where it is not in sight.
   * @param {Element | undefined} part
   * @param {"start" | "end" | "nearest"} block
   * @param {boolean} [atOnce]
   */
  function scroll(part, block, atOnce = false) {
    if (!part) return;
    arrive();
    const box = part.getBoundingClientRect();
    const { top, bottom } = free();
    const [start, end] = [box.top - top, box.bottom - bottom];
    if (block === "nearest" && start >= 0 && end <= 0) return;
    const way = block === "start" || (block === "nearest" && (start < 0 || end > start)) ? start : end;
    goTo(Math.max(0, scrollY + way), atOnce);
  }

  /**
   * Brings what is new into sight; what fills the window is read from its top, with the heading where that is near.
   * @param {Element | undefined} part
   * @param {boolean} [atOnce]
   */
  function bring(part, atOnce = false) {
    if (!part) return;
    arrive();
    const { top, bottom } = free();
    const box = part.getBoundingClientRect();
    if (box.height < (bottom - top) * 0.6) return scroll(part, "nearest", atOnce);
    const scene = part.closest(".scene");
    const near = scene && box.top - scene.getBoundingClientRect().top < (bottom - top) / 3;
    if (near) scroll(scene, "start", atOnce);
    else scroll(part, box.height > bottom - top ? "start" : "nearest", atOnce);
  }

  /** Brings the end of a step into sight, from where one goes back through it. @param {Element | undefined} part */
  function bringEnd(part) {
    if (!part) return;
    arrive();
    const { top, bottom } = free();
    const parts = foldParts(part);
    const [first, last] = [Math.min(...parts.map((each) => each.top)), Math.max(...parts.map((each) => each.bottom))];
    const isWhole = last - first <= bottom - top;
    const way = isWhole && first < top ? first - top : isWhole && last <= bottom ? 0 : last - bottom;
    if (way !== 0) goTo(Math.max(0, scrollY + way));
  }

  return { free, goTo, arrive, scroll, bring, bringEnd };
}
