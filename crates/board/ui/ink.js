// Handwriting on the sheet: pen, highlighter, eraser, and writing space made between the blocks of a scene.

/**
 * @typedef {object} Board
 * @property {HTMLElement} sheet the main element; its `section.scene` children are written on
 * @property {HTMLElement} bar the bar of the page; the ink's own stands below it
 * @property {(words: string) => void} say announces politely
 * @property {(words: string) => void} tell shows a message that stays
 * @property {{ ink?: unknown, inkAside?: unknown }} kept saved with the page
 * @property {() => void} touched call after each change of what is kept
 */
/** @typedef {"" | "pen" | "highlighter" | "eraser" | "room"} Mode "": off, the pointer goes through to the sheet */

/** @param {Board} board */
function ink(board) {
  const { INKS } = inkStrokes;
  /** @type {{ mode: Mode, chosen: number }} */
  const held = { mode: "", chosen: 1 };
  const steps = inkSteps(board, show);
  const sheet = inkBlocks(board, steps.scene, opened);
  const rooms = inkRooms(board, steps, sheet, {
    made: (element, keyed) => (keyed ? element?.querySelector("button")?.focus() : choose("pen")),
    removed: () => tools.focus("room"),
  });
  const hand = inkHand(board, steps, sheet, held);
  const walked = (/** @type {() => void} */ walk) => () => {
    hand.cancel();
    walk();
  };
  const [undo, redo] = [walked(steps.undo), walked(steps.redo)];
  const pick = inkPick(board, sheet, { wipe: hand.wipe, back: () => tools.focus("pick") });
  const tools = inkTools(board, steps, held, { choose, undo, redo, pick: pick.open });
  tools.bar.append(pick.list);

  /** @param {View} view */
  function opened(view) {
    view.pad.addEventListener("pointerdown", (event) => hand.down(event, view));
    view.gaps.addEventListener("click", (event) => rooms.clicked(event, view));
    grown.observe(view.section);
  }
  function show() {
    sheet.gather();
    for (const view of sheet.views.values()) {
      rooms.showRooms(view);
      sheet.showStrokes(view);
      view.pad.classList.toggle("ink-on", held.mode !== "" && held.mode !== "room");
      rooms.showGaps(view, held.mode === "room");
    }
    board.sheet.classList.toggle("ink-writing", held.mode !== "");
    tools.press();
    pick.changed();
  }
  /** @param {Mode} next */
  function choose(next) {
    held.mode = next;
    hand.change();
    show();
    const { name, look } = INKS[held.chosen - 1];
    if (next === "pen" || next === "highlighter") board.say(`${next === "pen" ? "Pen" : "Highlighter"} on, ${name}, ${look}.`);
    else board.say({ "": "Ink off.", eraser: "Eraser on: it takes whole strokes.", room: "Choose where to make room." }[next]);
  }

  // While ink is on its keys come first: Escape puts the pen away, and undo is the ink's.
  document.addEventListener("keydown", (event) => {
    const target = /** @type {Element | null} */ (event.target);
    if (!held.mode || tools.asking() || pick.picking() || event.defaultPrevented) return;
    if (target?.closest?.("input, textarea, select, [contenteditable], dialog")) return;
    const key = event.key.toLowerCase();
    if (key === "escape") choose("");
    else if ((event.ctrlKey || event.metaKey) && !event.altKey && (key === "z" || key === "y")) (key === "y" || event.shiftKey ? redo : undo)();
    else return;
    event.preventDefault();
    event.stopImmediatePropagation();
  }, true);

  // The ink's bar stands right below the bar of the page, however high that is, and what is focused or linked to comes
  // to lie below both.
  const root = document.documentElement.style;
  const bars = new ResizeObserver(() => {
    root.setProperty("--ink-top", `${board.bar.offsetHeight}px`);
    root.setProperty("--ink-height", `${tools.bar.offsetHeight}px`);
  });
  const grown = new ResizeObserver(() => {
    if (held.mode === "room") sheet.views.forEach((view) => rooms.showGaps(view, true));
  });
  // On paper the lines of the text break as they do on the screen, so that what is underlined stays so: the sheet is
  // printed as wide as it is now, and made smaller as a whole (see ink.css).
  addEventListener("beforeprint", () => {
    root.setProperty("--ink-sheet", `${board.sheet.clientWidth}px`);
    board.sheet.classList.toggle("ink-printed", steps.scenes().length > 0);
  });

  const write = inkCanvas.make("button", { type: "button", "aria-expanded": "false" }, "Write");
  write.addEventListener("click", () => {
    tools.bar.hidden = !tools.bar.hidden;
    write.setAttribute("aria-expanded", String(!tools.bar.hidden));
    choose(tools.bar.hidden ? "" : "pen");
  });
  tools.bar.hidden = true;
  board.bar.insertBefore(write, board.bar.querySelector("#more-open"));
  board.sheet.parentElement?.prepend(tools.bar);
  bars.observe(board.bar);
  bars.observe(tools.bar);
  sheet.watch(show);
  steps.begin();
}
