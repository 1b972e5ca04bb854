// The look of the ink: elements, and the form that a pen or highlighter leaves.

const inkCanvas = (() => {
  const { INKS, HIGHLIGHT, trace } = inkStrokes;
  const SVG = "http://www.w3.org/2000/svg";
  /** @type {WeakMap<Stroke, SVGPathElement>} */
  const paths = new WeakMap();

  /** @param {string} name @param {Record<string, string>} [attributes] @param {string} [text] @returns {HTMLElement} */
  function make(name, attributes = {}, text = "") {
    const element = document.createElement(name);
    for (const key in attributes) element.setAttribute(key, attributes[key]);
    if (text) element.textContent = text;
    return element;
  }
  /** @param {string} name @param {Record<string, string>} attributes @returns {any} */
  function draw(name, attributes) {
    const element = document.createElementNS(SVG, name);
    for (const key in attributes) element.setAttribute(key, attributes[key]);
    return element;
  }
  /** @param {number} p pressure @param {number} which */
  const radius = (p, which) => INKS[which - 1].size * (0.22 + 0.56 * p);
  /** @param {number} value */
  const short = (value) => String(Math.round(value * 100) / 100);
  /** @param {{ x: number, y: number }} point */
  const at = (point) => `${short(point.x)} ${short(point.y)}`;

  /** A smooth line through the midpoints of `points`, which steer it. @param {{ x: number, y: number }[]} points */
  function smooth(points) {
    let d = "";
    for (let i = 1; i < points.length - 1; i++) {
      const [a, b] = [points[i], points[i + 1]];
      const end = i === points.length - 2 ? b : { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
      d += `Q${at(a)} ${at(end)}`;
    }
    return d || `L${at(points[points.length - 1])}`;
  }
  /** A disc that turns the same way as the ribbons, so that the two never cancel. @param {Point} c @param {number} r */
  const disc = (c, r) => {
    const [a, b, s] = [at({ x: c.x - r, y: c.y }), at({ x: c.x + r, y: c.y }), short(r)];
    return `M${a}A${s} ${s} 0 0 1 ${b}A${s} ${s} 0 0 1 ${a}Z`;
  };
  /** The outline of a pen stroke: a ribbon as wide as the pressure, cut at its sharp turns, each piece with round ends.
   * @param {Point[]} points @param {number} which */
  function outline(points, which) {
    const line = [points[0]];
    for (const point of points) {
      const last = line[line.length - 1];
      if (Math.hypot(point.x - last.x, point.y - last.y) > 0.05) line.push(point);
    }
    if (line.length < 2) return disc(line[0], radius(line[0].p, which));
    const ways = line.slice(1).map((b, i) => {
      const far = Math.hypot(b.x - line[i].x, b.y - line[i].y);
      return { x: (b.x - line[i].x) / far, y: (b.y - line[i].y) / far };
    });
    let d = "";
    for (let from = 0; from < line.length - 1; ) {
      let to = from + 1;
      while (to < line.length - 1 && ways[to].x * ways[to - 1].x + ways[to].y * ways[to - 1].y > 0.4) to++;
      d += ribbon(line.slice(from, to + 1), ways.slice(from, to), which);
      from = to;
    }
    return d;
  }
  /** @param {Point[]} line @param {{ x: number, y: number }[]} ways @param {number} which */
  function ribbon(line, ways, which) {
    const left = [], right = [];
    for (let i = 0; i < line.length; i++) {
      const [a, b] = [ways[Math.max(0, i - 1)], ways[Math.min(ways.length - 1, i)]];
      const far = Math.hypot(a.x + b.x, a.y + b.y) || 1;
      const [nx, ny] = [-(a.y + b.y) / far, (a.x + b.x) / far];
      const r = radius(line[i].p, which);
      left.push({ x: line[i].x + nx * r, y: line[i].y + ny * r });
      right.push({ x: line[i].x - nx * r, y: line[i].y - ny * r });
    }
    left.reverse();
    const [head, tail] = [short(radius(line[line.length - 1].p, which)), short(radius(line[0].p, which))];
    return `M${at(right[0])}${smooth(right)}A${head} ${head} 0 0 1 ${at(left[0])}${smooth(left)}` +
      `A${tail} ${tail} 0 0 1 ${at(right[0])}Z`;
  }
  /** @param {SVGPathElement} path @param {string} tool @param {number} which @param {Point[]} points */
  function shape(path, tool, which, points) {
    if (tool === "pen") return path.setAttribute("d", outline(points, which));
    const [first] = points;
    const dot = points.length < 2 ? [first, { ...first, x: first.x + 0.1 }] : points;
    path.setAttribute("d", `M${at(dot[0])}${smooth(dot)}`);
  }
  /** @param {string} tool @param {number} which @returns {SVGPathElement} */
  function blank(tool, which) {
    const path = draw("path", { class: `ink-${tool}`, "data-ink": String(which) });
    if (tool === "highlighter") path.setAttribute("stroke-width", String(HIGHLIGHT));
    return path;
  }
  /** The path of a stroke, made once. @param {Stroke} stroke @returns {SVGPathElement} */
  function pathOf(stroke) {
    let path = paths.get(stroke);
    if (!path) {
      path = blank(stroke.tool, stroke.ink);
      shape(path, stroke.tool, stroke.ink, trace(stroke).points);
      paths.set(stroke, path);
    }
    return path;
  }

  return { make, draw, blank, shape, pathOf };
})();
