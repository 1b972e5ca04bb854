// Where the handles of a drawing lie, and to which values their keys lead: the reckoning behind grips.js.

function gripBetween(low, value, high) {
  return Math.max(low, Math.min(value, high));
}

/**
 * Moves marks that would lie on one another apart, and makes each as large as its neighbours let it.
 * @param {{at: number[], along: boolean}[]} spots where they are meant to be, px, and whether they move along
 * @param {{width: number, height: number}} room within which all stay
 * @param {{least: number, apart: number, largest: number}} sizes of targets, and how far centres are apart, px
 * @returns {{shift: number[], size: number}[]} how far each is moved, and its size
 */
function gripsParted(spots, { width, height }, { least, apart, largest }) {
  const edge = least / 2;
  const inside = ([x, y]) => [gripBetween(edge, x, width - edge), gripBetween(edge, y, height - edge)];
  const centres = spots.map(({ at }) => inside(at));
  const between = (one, other) => [centres[other][0] - centres[one][0], centres[other][1] - centres[one][1]];
  // Targets are squares: they part by the larger of the two ways.
  const far = ([across, down]) => Math.max(Math.abs(across), Math.abs(down));
  const pairs = spots.flatMap((_, one) => spots.slice(one + 1).map((_, later) => [one, one + 1 + later]));
  for (let round = 0, moved = true; moved && round < 60; round += 1) {
    moved = false;
    for (const [one, other] of pairs) {
      let away = between(one, other);
      const distance = far(away);
      if (distance >= apart - 0.5) continue;
      // At one and the same place they part across the way of the first, which so keeps its station.
      if (distance < 1) away = spots[one].along ? [0, 1] : [1, 0];
      const push = (apart - distance) / 2 / far(away);
      for (const [spot, way] of [[one, -push], [other, push]]) {
        centres[spot] = inside([centres[spot][0] + way * away[0], centres[spot][1] + way * away[1]]);
      }
      moved = true;
    }
  }
  return spots.map(({ at }, spot) => {
    // As wide as their centres are apart, no two of them overlap.
    const distances = centres.map((_, other) => (other === spot ? largest : far(between(spot, other))));
    const size = gripBetween(least, Math.floor(Math.min(...distances)), largest);
    return { shift: [centres[spot][0] - at[0], centres[spot][1] - at[1]], size };
  });
}

/** The transform of a box over a mark or beside it, always within the drawing; the box is not measured for it. */
function gripBeside({ x, y }, { width, height }, gap, beside) {
  const left = !beside ? `${x}px - 50%` : x < width / 2 ? `${x + gap}px` : `${x - gap}px - 100%`;
  const top = beside ? `${y}px - 50%` : `${y - gap}px - 100%`;
  return `translate(max(0px, min(${left}, ${width}px - 100%)), max(0px, min(${top}, ${height}px - 100%)))`;
}

/** So many steps on, on round values; a fine step is a tenth from wherever the handle is. */
function gripStepped({ value, step }, steps, fine) {
  if (fine) return value + (steps * step) / 10;
  const count = value / step;
  const round = Math.round(count);
  const whole = Math.abs(count - round) < 1e-6 ? round : steps > 0 ? Math.floor(count) : Math.ceil(count);
  return (whole + steps) * step;
}

/** The next value of rest beyond the present one, upwards (1) or downwards (-1). */
function gripNextSnap({ value, step, snaps }, way) {
  const beyond = snaps.map((snap) => snap.value).filter((snap) => (snap - value) * way > step * 1e-6);
  return way > 0 ? beyond[0] : beyond[beyond.length - 1];
}

/** Where the content of a plate begins in the window, however it and the page are scrolled. */
function gripOrigin(plate) {
  const box = plate.getBoundingClientRect();
  return [box.left + plate.clientLeft - plate.scrollLeft, box.top + plate.clientTop - plate.scrollTop];
}

/** Where the point (0, 0) of a drawing lies in the window: its marks keep their places from there though its sheet grows. */
function gripZero({ piece, plate }) {
  const matrix = piece.querySelector("svg")?.getScreenCTM();
  return matrix ? [matrix.e, matrix.f] : gripOrigin(plate);
}

/** The place of rest at which a handle is, in words. */
function gripRest({ snapped }) {
  return snapped ? `, at ${snapped}` : "";
}

/** What the element of a handle says of it, to the page and to those who hear it. */
function gripSaid(handle) {
  return {
    "data-axis": handle.axis,
    "aria-orientation": handle.axis === "up" ? "vertical" : "horizontal",
    "aria-label": handle.label,
    "aria-valuemin": handle.low,
    "aria-valuemax": handle.high,
    "aria-valuenow": handle.value,
    "aria-valuetext": handle.shown + gripRest(handle),
  };
}

/**
 * Whether a handle shows in a drawing that is too narrow for all that it has: of each load only the one that moves it along, until
 * the load is chosen; then all of its own.
 * @param {string} id the handle
 * @param {string[]} ids all of the drawing
 * @param {string | null} chosen the load that is chosen, as `load-3`
 */
function gripShows(id, ids, chosen) {
  const load = gripLoad(id);
  if (!load || load === chosen) return true;
  const own = ids.filter((other) => gripLoad(other) === load);
  return id === (own.find((other) => /-(place|from)$/.test(other)) ?? own[0]);
}

/** The load that a handle belongs to: `load-3` of `load-3-size`. */
function gripLoad(id) {
  return /^load-\d+(?=-)/.exec(id)?.[0] ?? null;
}
