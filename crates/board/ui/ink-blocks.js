// The blocks of the sheet that are written on, and the layer of ink that each carries.
//
// A stroke belongs to the block nearest to its middle, and its layer stands inside that block: so it goes where the
// block goes, is hidden with it, and grows and shrinks with its width, on paper too, with no script at work. On a
// drawing the layer has the drawing's own view box, so the two fit however the drawing is fitted into its plate.
//
// A block is named by its id; where it has none, by the next named thing around it and its place in that
// ("results-slice/2"); a writing space by the block that it stands after ("room/h-slice").

/** @typedef {{ name: string, element: HTMLElement, drawing?: SVGSVGElement }} Leaf what ink can stand on */
/** @typedef {{ left: number, top: number, width: number }} Frame where a block's ink is counted from, in the window */
/** @typedef {{ svg: SVGSVGElement, leaf: Leaf, form: string, shown: Stroke[] }} Layer */
/**
 * @typedef {object} View what stands in one scene's section
 * @property {string} id
 * @property {HTMLElement} section
 * @property {SVGSVGElement} pad over the whole scene: takes the pointer, and shows the stroke that is being written
 * @property {HTMLElement} note
 * @property {HTMLElement} gaps
 * @property {Map<string, HTMLElement>} rooms by the block they stand after
 * @property {Map<string, Layer>} layers by the block they stand on
 */

/**
 * @param {Board} board
 * @param {(id: string) => Scene} sceneOf
 * @param {(view: View) => void} opened called for each new view
 */
function inkBlocks(board, sceneOf, opened) {
  const { make, draw, pathOf } = inkCanvas;
  const OURS = "svg.ink, .ink-pad, .ink-note, .ink-gaps, .room";
  // Only these can carry a layer; a table or a list would not be one any more with a picture among its rows.
  const CARRIES = /^(P|DIV|LI|H[1-6]|BLOCKQUOTE|PRE|DD)$/;
  /** @type {Map<string, View>} */
  const views = new Map();

  /** The blocks of a scene that space can be made between: also those inside its steps. @param {View} view */
  function blocks(view) {
    /** @type {{ name: string, element: HTMLElement }[]} */
    const found = [];
    const own = [...view.section.children].flatMap((child) => (child.matches(".step") ? [...child.children] : [child]));
    for (const element of /** @type {HTMLElement[]} */ (own)) {
      if (element.matches(`${OURS}, .predict`)) continue; // the lecture's questions come and go
      const name = element.id || element.querySelector(".piece[id]")?.id || `${view.id}/${found.length}`;
      found.push({ name, element });
    }
    return found;
  }
  /** The blocks of a scene that ink can stand on. @param {View} view @returns {Leaf[]} */
  function leaves(view) {
    /** @type {Leaf[]} */
    const found = [];
    for (const { name, element } of blocks(view)) {
      const piece = element.matches("figure") ? /** @type {HTMLElement | null} */ (element.querySelector(".piece")) : element;
      if (!piece) continue;
      const drawing = /** @type {SVGSVGElement | null} */ (piece.querySelector(":scope > svg:not(.ink)"));
      if (drawing) found.push({ name, element: piece, drawing });
      else if (!piece.matches(".piece")) found.push({ name, element: piece });
      else found.push(...within(name, piece));
    }
    for (const [after, element] of view.rooms) if (element.isConnected) found.push({ name: `room/${after}`, element });
    return found;
  }
  /** The blocks inside a piece of text; those that cannot carry a layer are the piece's. @param {string} name
   * @param {HTMLElement} piece @returns {Leaf[]} */
  function within(name, piece) {
    const children = [...piece.children].flatMap((child) => (child.matches("ul, ol, dl") ? [...child.children] : [child]));
    const carriers = /** @type {HTMLElement[]} */ (children.filter((it) => CARRIES.test(it.tagName) && !it.matches(OURS)));
    const parts = carriers.map((element, i) => ({ name: `${name}/${i}`, element }));
    const others = children.some((it) => !CARRIES.test(it.tagName) && !it.matches(OURS));
    return others || !parts.length ? [...parts, { name, element: piece }] : parts;
  }
  /** The block of a name; where a text has fewer parts than it had, its last one. @param {Leaf[]} all @param {string} name */
  function leafOf(all, name) {
    const exact = all.find((leaf) => leaf.name === name);
    if (exact) return exact;
    const whole = name.replace(/\/\d+$/, "");
    return all.findLast((leaf) => leaf.name === whole || leaf.name.replace(/\/\d+$/, "") === whole);
  }
  /** @param {SVGSVGElement} drawing */
  function box(drawing) {
    const { x, y, width, height } = drawing.viewBox.baseVal;
    return width > 0 && height > 0 ? { x, y, width, height } : null;
  }
  /** @param {Leaf} leaf @returns {Frame} */
  function frame({ element, drawing }) {
    const outer = (drawing ?? element).getBoundingClientRect();
    const inner = drawing && box(drawing);
    if (inner) {
      // The drawing is fitted into its element and stands in the middle of it. Its sheet may grow on any side; what stands on
      // it keeps its place from the point (0, 0), and so does the ink.
      const scale = Math.min(outer.width / inner.width, outer.height / inner.height);
      const [width, height] = [inner.width * scale, inner.height * scale];
      const [across, down] = [(outer.width - width) / 2, (outer.height - height) / 2];
      return { left: outer.left + across - inner.x * scale, top: outer.top + down - inner.y * scale, width };
    }
    const edges = element.offsetWidth - element.clientWidth;
    return { left: outer.left + element.clientLeft, top: outer.top + element.clientTop, width: outer.width - edges };
  }
  /** The block nearest to a point of the window. @param {View} view @param {number} x @param {number} y */
  function nearest(view, x, y) {
    let best = null, least = Infinity;
    for (const leaf of leaves(view)) {
      const { left, right, top, bottom, width } = leaf.element.getBoundingClientRect();
      if (width < 10 || bottom <= top) continue; // hidden, or too narrow to measure by
      const far = Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));
      if (far < least) [best, least] = [leaf, far];
    }
    return best;
  }

  /** Sees to it that every scene has its pad, also after the board has exchanged its sheet. */
  function gather() {
    const sections = /** @type {HTMLElement[]} */ ([...board.sheet.children].filter((it) => it.matches("section.scene[id]")));
    for (const [id, view] of views) if (!sections.includes(view.section)) views.delete(id);
    for (const section of sections) {
      let view = views.get(section.id);
      if (!view) {
        const pad = draw("svg", { class: "ink-pad", "aria-hidden": "true", focusable: "false" });
        const gaps = make("div", { class: "ink-gaps", role: "group", "aria-label": "Places for writing space", hidden: "" });
        view = { id: section.id, section, pad, note: make("p", { class: "ink-note" }), gaps, rooms: new Map(), layers: new Map() };
        views.set(section.id, view);
        watcher.observe(section, { childList: true });
        opened(view);
      }
      for (const part of [view.pad, view.gaps]) if (part.parentNode !== section) section.append(part);
    }
  }
  /** Draws the strokes of a scene, each on its block. @param {View} view */
  function showStrokes(view) {
    const { strokes } = sceneOf(view.id);
    /** @type {Map<string, Stroke[]>} */
    const byBlock = new Map();
    for (const stroke of strokes) {
      const list = byBlock.get(stroke.on);
      if (list) list.push(stroke);
      else byBlock.set(stroke.on, [stroke]);
    }
    for (const [name, layer] of view.layers) {
      if (byBlock.has(name)) continue;
      layer.svg.remove();
      view.layers.delete(name);
    }
    const all = byBlock.size ? leaves(view) : [];
    let drawn = 0;
    for (const [name, list] of byBlock) {
      const leaf = leafOf(all, name);
      if (leaf) drawn += list.length;
      else view.layers.get(name)?.svg.remove(); // its block is not on the sheet now; the ink waits for it
      if (leaf) showLayer(view, name, leaf, list);
    }
    say(view, drawn, strokes.length - drawn);
  }
  /** @param {View} view @param {number} drawn @param {number} waiting */
  function say(view, drawn, waiting) {
    const count = (/** @type {number} */ n) => `${n} stroke${n === 1 ? "" : "s"}`;
    const words = [drawn ? `handwriting: ${count(drawn)}` : "", waiting ? `${count(waiting)} on what is not on the sheet now` : ""]
      .filter(Boolean).join("; ");
    if (view.note.textContent !== words) view.note.textContent = words;
    if (!words) view.note.remove();
    else if (view.note.parentNode !== view.section) view.section.append(view.note);
  }
  /** @param {View} view @param {string} name @param {Leaf} leaf @param {Stroke[]} strokes */
  function showLayer(view, name, leaf, strokes) {
    let layer = view.layers.get(name);
    if (!layer) {
      layer = { svg: draw("svg", { class: "ink", "aria-hidden": "true", focusable: "false" }), leaf, form: "", shown: [] };
      view.layers.set(name, layer);
    }
    layer.leaf = leaf;
    const form = leaf.drawing ? fitTo(layer.svg, leaf.drawing) : "";
    const same = layer.form === form && layer.shown.length <= strokes.length &&
      layer.shown.every((stroke, i) => stroke === strokes[i]);
    layer.form = form;
    if (!same) layer.svg.replaceChildren();
    for (const stroke of same ? strokes.slice(layer.shown.length) : strokes) {
      const path = pathOf(stroke);
      path.classList.remove("ink-doomed");
      part(layer, stroke.width).append(path);
    }
    layer.shown = strokes;
    if (layer.svg.parentNode !== leaf.element) leaf.element.append(layer.svg);
    leaf.element.classList.add("ink-written");
    leaf.element.closest(".plate, .scroll")?.classList.add("ink-written");
    for (let it = leaf.element; it !== view.section; it = /** @type {HTMLElement} */ (it.parentElement)) {
      if (it.matches(".piece, .step")) watcher.observe(it, { childList: true });
    }
    if (leaf.drawing) watcher.observe(leaf.drawing, { attributes: true, attributeFilter: ["viewBox"] });
  }
  /** Gives a layer the form of the drawing under it. @param {SVGSVGElement} svg @param {SVGSVGElement} drawing */
  function fitTo(svg, drawing) {
    const names = ["viewBox", "width", "height"];
    for (const name of names) {
      const value = drawing.getAttribute(name);
      if (value === null) svg.removeAttribute(name);
      else if (svg.getAttribute(name) !== value) svg.setAttribute(name, value);
    }
    return names.map((name) => svg.getAttribute(name)).join(" ");
  }
  /** The part of a layer that is drawn at `width` (0.1 px). @param {Layer} layer @param {number} width @returns {Element} */
  function part({ svg, leaf }, width) {
    const last = svg.lastElementChild;
    if (last?.getAttribute("data-width") === String(width)) return last;
    const inner = leaf.drawing && box(leaf.drawing);
    const fresh = inner
      ? draw("g", { transform: `scale(${(inner.width * 10) / width})` })
      : draw("svg", { width: "100%", height: "100%", viewBox: `0 0 ${width / 10} 1`, preserveAspectRatio: "xMinYMin meet", overflow: "visible" });
    fresh.setAttribute("data-width", String(width));
    svg.append(fresh);
    return fresh;
  }

  // What the board exchanges is seen here, before it is painted; while a value is dragged the marks and numbers inside
  // a drawing change, which is not watched, and a piece without ink is not watched either.
  const watcher = new MutationObserver(() => {
    const away = [...views.values()].some((view) => !view.section.isConnected || view.pad.parentNode !== view.section ||
      [...view.layers.values()].some(({ svg, leaf, form }) => !svg.isConnected || svg.parentNode !== leaf.element ||
        (leaf.drawing && (!leaf.drawing.isConnected || fitTo(svg, leaf.drawing) !== form))) ||
      sceneOf(view.id).rooms.some(({ after }) => !view.rooms.get(after)?.isConnected));
    const fresh = [...board.sheet.children].some((it) => it.matches("section.scene[id]") && views.get(it.id)?.section !== it);
    if (away || fresh) changed();
  });
  let changed = () => {};

  return {
    views, blocks, frame, nearest, gather, showStrokes,
    /** Calls `act` when the board has exchanged what carried ink. @param {() => void} act */
    watch(act) {
      // A page saved with its ink drawn: it is drawn anew from what was kept.
      for (const old of board.sheet.querySelectorAll(OURS)) old.remove();
      changed = act;
      watcher.observe(board.sheet, { childList: true });
    },
  };
}
