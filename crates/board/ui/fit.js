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
const SMALLEST = 0.66;

/**
 * Makes the equations that are broader than a narrow window so much smaller that they fit into it.
 * @param {HTMLElement} sheet
 * @param {boolean} narrow
 */
function fitEquations(sheet, narrow) {
  const equations = [...sheet.querySelectorAll(".equation")];
  for (const equation of equations) equation.style.removeProperty("--fit");
  if (!narrow) return;
  // First everything is measured, then everything is written.
  const parts = equations.map((equation) => {
    const formula = equation.querySelector(".formula") ?? equation;
    return formula.clientWidth / Math.max(formula.scrollWidth, 1);
  });
  equations.forEach((equation, place) => {
    // A little less than is needed: letters of another size do not shrink by just as much.
    if (parts[place] > 0 && parts[place] < 1) equation.style.setProperty("--fit", String(Math.max(SMALLEST, 0.985 * parts[place])));
  });
}
