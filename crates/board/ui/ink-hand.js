// The hand: what pen, mouse and finger do on the sheet while ink is on.

/**
 * @param {Board} board
 * @param {ReturnType<typeof inkSteps>} steps
 * @param {ReturnType<typeof inkBlocks>} sheet
 * @param {{ mode: Mode, chosen: number }} held what is in the hand
 */
function inkHand(board, steps, sheet, held) {
  const { INKS, HIGHLIGHT, LIMIT, trace, stored, apart } = inkStrokes;
  const { blank, shape, pathOf } = inkCanvas;
  const ERASER = 8; // reach, CSS px
  // Once a pen was seen, fingers and the palm scroll and write no more, until ink is put away.
  let penSeen = false;
  /** @type {{ pointer: number, kind: string, view: View, erase: boolean, points: Point[], path?: SVGPathElement,
   *   tool: string, time: number, last: Spot, doomed: Set<Stroke>, due: number } | null} points from the pad's corner */
  let going = null;
  /** @type {Map<number, Spot>} touches that scroll */
  const scrolling = new Map();

  /** @param {PointerEvent} event @param {View} view */
  function down(event, view) {
    const { mode } = held;
    if (!mode || mode === "room") return;
    if (event.pointerType === "pen") penSeen = true;
    const erase = mode === "eraser" || (event.pointerType === "pen" && (event.buttons & 32) !== 0);
    if (event.button !== 0 && !(erase && event.button === 5)) return;
    event.preventDefault();
    view.pad.setPointerCapture(event.pointerId);
    if (event.pointerType === "touch" && (penSeen || going || scrolling.size)) {
      if (going?.kind === "touch") { // two fingers scroll
        scrolling.set(going.pointer, going.last);
        cancel();
      }
      scrolling.set(event.pointerId, { x: event.clientX, y: event.clientY });
      return;
    }
    if (going?.kind === "touch" && event.pointerType === "pen") cancel(); // it was the palm
    if (going) return;
    going = {
      pointer: event.pointerId, kind: event.pointerType, view, erase, points: [], tool: mode, time: event.timeStamp,
      last: { x: event.clientX, y: event.clientY }, doomed: new Set(), due: 0,
    };
    if (!erase) {
      going.path = blank(mode, held.chosen);
      view.pad.append(going.path);
    }
    take(event);
  }
  /** @param {PointerEvent} event */
  function move(event) {
    if (held.mode && event.pointerType === "pen") penSeen = true;
    const from = scrolling.get(event.pointerId);
    if (from) {
      const lead = scrolling.keys().next().value === event.pointerId;
      if (lead) scroller().scrollBy({ left: from.x - event.clientX, top: from.y - event.clientY, behavior: "instant" });
      scrolling.set(event.pointerId, { x: event.clientX, y: event.clientY });
      return;
    }
    if (event.pointerId !== going?.pointer) return;
    const all = event.getCoalescedEvents?.() ?? [];
    for (const each of all.length ? all : [event]) take(each);
  }
  /** @param {PointerEvent} event */
  function take(event) {
    if (!going) return;
    const box = going.view.pad.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    if (going.erase) {
      rub(going.last, { x: event.clientX, y: event.clientY });
      going.last = { x: event.clientX, y: event.clientY };
      return;
    }
    const { points } = going, last = points[points.length - 1];
    const far = Math.hypot(event.clientX - going.last.x, event.clientY - going.last.y), lapse = event.timeStamp - going.time;
    let p = last ? last.p : 0.5;
    if (event.pointerType === "pen" && event.pressure > 0) p = last ? (p + event.pressure) / 2 : event.pressure;
    else if (lapse > 0) p = 0.75 * p + 0.25 * Math.min(0.75, Math.max(0.2, 0.75 - 0.22 * (far / lapse)));
    going.last = { x: event.clientX, y: event.clientY };
    going.time = event.timeStamp;
    // The hand's tremor is taken off: the point goes most of the way, and the end is caught up on lifting.
    const point = last ? { x: last.x + 0.65 * (x - last.x), y: last.y + 0.65 * (y - last.y), p } : { x, y, p };
    if (last && Math.hypot(point.x - last.x, point.y - last.y) < 0.6) return;
    if (points.length < LIMIT.numbers / 3 - 1) points.push(point);
    going.due ||= requestAnimationFrame(() => {
      if (!going?.path) return;
      going.due = 0;
      shape(going.path, going.tool, held.chosen, going.points);
    });
  }
  /** @param {PointerEvent} event */
  function up(event) {
    scrolling.delete(event.pointerId);
    if (!going || event.pointerId !== going.pointer) return;
    if (event.type === "pointercancel") return cancel();
    const { view, points, path, tool, doomed, last, due, erase } = going;
    cancelAnimationFrame(due);
    going = null;
    if (erase) return wipe(doomed);
    const box = view.pad.getBoundingClientRect(), end = points[points.length - 1];
    const close = { x: last.x - box.left, y: last.y - box.top, p: end.p };
    if (Math.hypot(close.x - end.x, close.y - end.y) > 0.3) points.push(close);
    path?.remove();
    write(view, tool, points.map(({ x, y, p }) => ({ x: x + box.left, y: y + box.top, p })));
  }
  /** Puts a stroke on the block nearest to its middle. @param {View} view @param {string} tool @param {Point[]} points in
   * the window */
  function write(view, tool, points) {
    let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const { x, y } of points) {
      [left, right] = [Math.min(left, x), Math.max(right, x)];
      [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
    }
    const leaf = sheet.nearest(view, (left + right) / 2, (top + bottom) / 2);
    if (!leaf) return board.say("There is nothing here to write on.");
    const from = sheet.frame(leaf);
    const about = { on: leaf.name, tool, ink: held.chosen, width: from.width };
    const stroke = stored(about, points.map(({ x, y, p }) => ({ x: x - from.left, y: y - from.top, p })));
    const { strokes, rooms } = steps.scene(view.id);
    steps.take({ [view.id]: { strokes: [...strokes, stroke], rooms } });
  }
  /** Takes strokes off the sheet. @param {Set<Stroke>} doomed */
  function wipe(doomed) {
    if (!doomed.size) return;
    /** @type {Record<string, Scene>} */
    const changed = {};
    for (const [id, { strokes, rooms }] of steps.scenes()) {
      const stay = strokes.filter((stroke) => !doomed.has(stroke));
      if (stay.length < strokes.length) changed[id] = { strokes: stay, rooms };
    }
    steps.take(changed);
    board.say(`${doomed.size} stroke${doomed.size === 1 ? "" : "s"} erased.`);
  }
  /** Drops what is being written or erased. */
  function cancel() {
    if (!going) return;
    cancelAnimationFrame(going.due);
    going.path?.remove();
    for (const stroke of going.doomed) pathOf(stroke).classList.remove("ink-doomed");
    going = null;
  }
  /** Marks the strokes that the eraser meets between two points of the window. @param {Spot} a @param {Spot} b */
  function rub(a, b) {
    for (const view of sheet.views.values()) {
      for (const { leaf, shown } of view.layers.values()) {
        const from = sheet.frame(leaf);
        if (from.width <= 0) continue; // not to be seen now
        for (const stroke of shown) {
          if (!going || going.doomed.has(stroke)) continue;
          const s = (from.width * 10) / stroke.width, { points, left, top, right, bottom } = trace(stroke);
          const [c, d] = [a, b].map((it) => ({ x: (it.x - from.left) / s, y: (it.y - from.top) / s }));
          const reach = ERASER / s + (stroke.tool === "pen" ? INKS[stroke.ink - 1].size / 2 : HIGHLIGHT / 2);
          if (Math.max(c.x, d.x) < left - reach || Math.min(c.x, d.x) > right + reach) continue;
          if (Math.max(c.y, d.y) < top - reach || Math.min(c.y, d.y) > bottom + reach) continue;
          if (!points.some((point, i) => apart(points[Math.max(0, i - 1)], point, c, d) <= reach)) continue;
          going.doomed.add(stroke);
          pathOf(stroke).classList.add("ink-doomed");
        }
      }
    }
  }
  /** What scrolls the sheet. @returns {Element} */
  function scroller() {
    for (let it = board.sheet.parentElement; it && it !== document.body; it = it.parentElement) {
      if (it.scrollHeight > it.clientHeight && /auto|scroll/.test(getComputedStyle(it).overflowY)) return it;
    }
    return document.scrollingElement ?? document.documentElement;
  }

  document.addEventListener("pointermove", move);
  document.addEventListener("pointerup", up);
  document.addEventListener("pointercancel", up);
  return {
    down, cancel, wipe,
    /** Begins anew with another tool, or none. */
    change() {
      cancel();
      scrolling.clear();
      if (!held.mode) penSeen = false;
    },
  };
}
