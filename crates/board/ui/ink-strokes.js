// The ink as data: what a stroke and a writing space are, and which of what a page kept can be trusted.
//
// What is kept (`board.kept.ink`) is plain JSON:
//
//   { version: 1, scenes: { "scene-x": {
//       strokes: [{ on, tool: "pen" | "highlighter", ink: 1..4, width, points: [x, y, p, dx, dy, p, ...] }],
//       rooms: [{ after, height }] } } }
//
// `on` names the block that the stroke was written on, `after` the block that the space stands after (see
// ink-blocks.js). `width` is the width of that block when the stroke was written; it and the coordinates, which start
// at the block's corner, are integers of 0.1 CSS px, each point after the first relative to the one before; `p` is the
// pressure, 0..255; `height` is in CSS px.

/** @typedef {{ on: string, tool: string, ink: number, width: number, points: number[] }} Stroke */
/** @typedef {{ after: string, height: number }} Room */
/** @typedef {{ strokes: Stroke[], rooms: Room[] }} Scene */
/** @typedef {{ version: 1, scenes: Record<string, Scene> }} Kept never changed in place: undo keeps the old ones */
/** @typedef {{ x: number, y: number, p: number }} Point x, y in CSS px at the written width; p from 0 to 1 */
/** @typedef {{ points: Point[], left: number, top: number, right: number, bottom: number }} Trace */

const inkStrokes = (() => {
  const INKS = [
    { name: "Plain", look: "medium", size: 3 },
    { name: "Blue", look: "fine", size: 2.4 },
    { name: "Vermilion", look: "bold", size: 4 },
    { name: "Green", look: "broad", size: 5 },
  ];
  const HIGHLIGHT = 18; // width, CSS px
  const LIMIT = { bytes: 2_000_000, scenes: 500, strokes: 20_000, numbers: 60_000, rooms: 60, reach: 2_000_000 };
  const ROOM = { least: 60, first: 200, step: 100, most: 3000 };
  const NAME = /^[^\s<>"]{1,200}$/;

  /** @type {WeakMap<Stroke, Trace>} */
  const traces = new WeakMap();
  /** @type {WeakMap<Stroke, number>} */
  const weights = new WeakMap();

  /** Where a stroke goes, counted from the corner of its block. @param {Stroke} stroke @returns {Trace} */
  function trace(stroke) {
    let found = traces.get(stroke);
    if (found) return found;
    found = { points: [], left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
    for (let i = 0, x = 0, y = 0; i < stroke.points.length; i += 3) {
      x += stroke.points[i] / 10;
      y += stroke.points[i + 1] / 10;
      found.points.push({ x, y, p: stroke.points[i + 2] / 255 });
      found.left = Math.min(found.left, x);
      found.right = Math.max(found.right, x);
      found.top = Math.min(found.top, y);
      found.bottom = Math.max(found.bottom, y);
    }
    traces.set(stroke, found);
    return found;
  }
  /** @param {{ on: string, tool: string, ink: number, width: number }} about @param {Point[]} points @returns {Stroke} */
  function stored({ on, tool, ink, width }, points) {
    const numbers = [];
    let x = 0, y = 0;
    for (const point of points) {
      const [nx, ny] = [Math.round(point.x * 10), Math.round(point.y * 10)];
      numbers.push(nx - x, ny - y, Math.round(point.p * 255));
      [x, y] = [nx, ny];
    }
    return { on, tool, ink, width: Math.round(width * 10), points: numbers };
  }
  /** The bytes that a stroke takes in the saved page. @param {Stroke} stroke */
  function bytesOf(stroke) {
    let bytes = weights.get(stroke);
    if (bytes === undefined) weights.set(stroke, (bytes = JSON.stringify(stroke).length + 1));
    return bytes;
  }
  /** @param {Kept} kept */
  function bytesOfAll(kept) {
    let sum = 0;
    for (const { strokes, rooms } of Object.values(kept.scenes)) {
      sum += 200 + 120 * rooms.length;
      for (const stroke of strokes) sum += bytesOf(stroke);
    }
    return sum;
  }

  /** The distance between two line pieces. @typedef {{ x: number, y: number }} Spot
   * @param {Spot} a @param {Spot} b @param {Spot} c @param {Spot} d */
  function apart(a, b, c, d) {
    const side = (/** @type {Spot} */ p, /** @type {Spot} */ q, /** @type {Spot} */ r) =>
      (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return 0;
    const to = (/** @type {Spot} */ p, /** @type {Spot} */ q, /** @type {Spot} */ r) => {
      const long = (r.x - q.x) ** 2 + (r.y - q.y) ** 2;
      const t = long ? Math.min(1, Math.max(0, ((p.x - q.x) * (r.x - q.x) + (p.y - q.y) * (r.y - q.y)) / long)) : 0;
      return Math.hypot(p.x - q.x - t * (r.x - q.x), p.y - q.y - t * (r.y - q.y));
    };
    return Math.min(to(a, c, d), to(b, c, d), to(c, a, b), to(d, a, b));
  }

  // ---- what a page kept: nothing of it is taken as it stands -------------------------------------------------

  const plain = (/** @type {any} */ it) => typeof it === "object" && it !== null && !Array.isArray(it);
  const named = (/** @type {any} */ it) => typeof it === "string" && NAME.test(it);

  /** What of `kept` is sound; the rest is left out and counted. @param {any} kept @returns {{ sound: Kept, refused: number }} */
  function restored(kept) {
    /** @type {Kept} */
    const sound = { version: 1, scenes: {} };
    if (kept === undefined || kept === null) return { sound, refused: 0 };
    if (!plain(kept) || kept.version !== 1 || !plain(kept.scenes)) return { sound, refused: 1 };
    const ids = Object.keys(kept.scenes);
    let refused = Math.max(0, ids.length - LIMIT.scenes), strokes = 0, bytes = 0;
    /** @param {any} list @param {number} most @returns {any[]} */
    const items = (list, most) => {
      if (Array.isArray(list) && list.length <= most) return list;
      if (list !== undefined) refused++;
      return [];
    };
    for (const id of ids.slice(0, LIMIT.scenes)) {
      const from = kept.scenes[id];
      if (!/^scene-/.test(id) || !named(id) || !plain(from)) {
        refused++;
        continue;
      }
      /** @type {Scene} */
      const into = { strokes: [], rooms: [] };
      for (const stroke of items(from.strokes, LIMIT.strokes)) {
        if (!soundStroke(stroke) || ++strokes > LIMIT.strokes) {
          refused++;
          continue;
        }
        const { on, tool, ink, width, points } = stroke;
        const clean = { on, tool, ink, width, points: Array.from(points) };
        bytes += bytesOf(clean);
        if (bytes > LIMIT.bytes) refused++;
        else into.strokes.push(clean);
      }
      for (const room of items(from.rooms, LIMIT.rooms)) {
        const after = room?.after, height = room?.height;
        const fits = Number.isFinite(height) && height >= ROOM.least && height <= ROOM.most;
        if (named(after) && fits && !into.rooms.some((other) => other.after === after)) into.rooms.push({ after, height });
        else refused++;
      }
      if (into.strokes.length || into.rooms.length) sound.scenes[id] = into;
    }
    return { sound, refused };
  }
  /** @param {any} stroke @returns {boolean} */
  function soundStroke(stroke) {
    if (!plain(stroke)) return false;
    const { on, tool, ink, width, points } = stroke;
    if (!named(on) || (tool !== "pen" && tool !== "highlighter")) return false;
    if (!Number.isInteger(ink) || ink < 1 || ink > INKS.length) return false;
    if (!Number.isInteger(width) || width < 100 || width > 100_000) return false;
    if (!Array.isArray(points) || points.length < 3 || points.length > LIMIT.numbers || points.length % 3) return false;
    for (let i = 0, x = 0, y = 0; i < points.length; i += 3) {
      if (!Number.isInteger(points[i]) || !Number.isInteger(points[i + 1]) || !Number.isInteger(points[i + 2])) return false;
      x += points[i];
      y += points[i + 1];
      if (Math.abs(x) > LIMIT.reach || Math.abs(y) > LIMIT.reach) return false;
      if (points[i + 2] < 0 || points[i + 2] > 255) return false;
    }
    return true;
  }

  return { INKS, HIGHLIGHT, LIMIT, ROOM, trace, stored, bytesOfAll, apart, restored };
})();
