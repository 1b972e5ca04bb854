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
  };
  narrow.addEventListener("change", () => printing || fit());
  for (const [kind, on] of [["beforeprint", true], ["afterprint", false]]) {
    addEventListener(kind, () => {
      printing = on;
      fit();
    });
  }
  fit();
}
