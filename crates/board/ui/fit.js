// Drawings for the window: on a phone they are drawn narrow, in letters of the same size.

/** Draws for the window as it is now, and again when it becomes narrow or wide. */
function fitToWindow(board) {
  const narrow = matchMedia("(max-width: 40rem)");
  let printing = false;
  // Ink stands where it was written: a drawing that carries some stays as it was then.
  const inked = () => Object.values(board.kept.ink?.scenes ?? {}).some(({ strokes }) => strokes.some(({ on }) => on.startsWith("drawing-")));
  const fit = () => {
    board.kept.narrow = inked() ? board.kept.narrow === true : narrow.matches && !printing;
    board.fit(board.kept.narrow);
    fitEquations(board.sheet, board.kept.narrow);
  };
  board.applied(() => board.kept.narrow && !board.moving() && fitEquations(board.sheet, true));
  addEventListener("resize", () => board.kept.narrow && fitEquations(board.sheet, true));
  narrow.addEventListener("change", () => printing || fit());
  for (const [kind, on] of [["beforeprint", true], ["afterprint", false]]) {
    addEventListener(kind, () => {
      printing = on;
      fit();
    });
  }
  fit();
}

/** No equation is set smaller than this part of its size: what is broader still is pushed sideways. */
const SMALLEST = 0.6;

/**
 * Makes the equations that are broader than a narrow window so much smaller that they fit into it.
 * @param {HTMLElement} sheet
 * @param {boolean} narrow
 */
function fitEquations(sheet, narrow) {
  const sizes = new Map([...sheet.querySelectorAll(".equation")].map((equation) => [equation, 1]));
  for (const equation of sizes.keys()) equation.style.removeProperty("--fit");
  // Letters of another size do not shrink by just as much as they are smaller: what is still too broad is made smaller again.
  for (let round = 0; narrow && round < 3; round += 1) {
    // First everything is measured, then everything is written.
    const parts = [...sizes].map(([equation, size]) => {
      const formula = equation.querySelector(".formula") ?? equation;
      return [equation, size, formula.clientWidth / Math.max(formula.scrollWidth, 1)];
    });
    const broad = parts.filter(([, size, part]) => part > 0 && part < 1 && size > SMALLEST);
    if (broad.length === 0) return;
    for (const [equation, size, part] of broad) {
      sizes.set(equation, Math.max(SMALLEST, 0.985 * part * size));
      equation.style.setProperty("--fit", String(sizes.get(equation)));
    }
  }
}
