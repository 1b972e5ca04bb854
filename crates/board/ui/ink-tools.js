// The ink's toolbar: one stop of the Tab key, walked by the arrows.

/**
 * @param {Board} board
 * @param {ReturnType<typeof inkSteps>} steps
 * @param {{ mode: Mode, chosen: number }} held
 * @param {{ choose: (mode: Mode) => void, pick: () => void, undo: () => void, redo: () => void }} acts
 */
function inkTools(board, steps, held, acts) {
  const { INKS } = inkStrokes;
  const { make, draw } = inkCanvas;
  const bar = make("div", { class: "ink-bar", role: "toolbar", "aria-label": "Ink", "aria-orientation": "horizontal" });
  /** @type {Record<string, HTMLElement>} */
  const buttons = {};
  /** @param {HTMLElement} group @param {string} name @param {string} label @param {() => void} act */
  function add(group, name, label, act) {
    const button = make("button", { type: "button", class: "ink-button" }, label);
    button.addEventListener("click", act);
    group.append((buttons[name] = button));
    return button;
  }
  /** Marks what is in the hand and what can be done. */
  function press() {
    for (const name of ["pen", "highlighter", "eraser", "room"]) buttons[name].setAttribute("aria-pressed", String(held.mode === name));
    INKS.forEach((_, i) => buttons[`ink${i + 1}`].setAttribute("aria-pressed", String(held.chosen === i + 1)));
    const any = steps.scenes().some(([, { strokes }]) => strokes.length);
    for (const [name, can] of /** @type {[string, boolean][]} */ ([["undo", steps.canUndo()], ["redo", steps.canRedo()], ["clear", any], ["pick", any]])) {
      buttons[name].setAttribute("aria-disabled", String(!can));
    }
  }
  /** @param {boolean} open */
  function ask(open) {
    if (open && buttons.clear.getAttribute("aria-disabled") === "true") return board.say("There is no ink to clear.");
    question.hidden = !open;
    buttons.clear.hidden = open;
    (open ? buttons.keep : buttons.clear).focus();
    if (open) board.say("Clear all ink of the sheet? Writing space stays.");
  }
  function clear() {
    /** @type {Record<string, Scene>} */
    const changed = {};
    for (const [id, { rooms }] of steps.scenes()) changed[id] = { strokes: [], rooms };
    steps.take(changed);
    ask(false);
    board.say("All ink cleared. Undo ink brings it back.");
  }
  /** @param {string} label */
  function group(label) {
    const element = make("div", { class: "ink-group", role: "group", "aria-label": label });
    bar.append(element);
    return element;
  }
  const tools = group("Ink tools"), inks = group("Inks"), back = group("Ink steps");
  for (const [name, label] of /** @type {[Mode, string][]} */ ([
    ["pen", "Pen"], ["highlighter", "Highlighter"], ["eraser", "Eraser"], ["room", "Make room"],
  ])) add(tools, name, label, () => acts.choose(held.mode === name ? "" : name));
  INKS.forEach(({ name, look, size }, i) => {
    const button = add(inks, `ink${i + 1}`, `${name}, ${look}`, () => {
      held.chosen = i + 1;
      acts.choose(held.mode === "highlighter" ? "highlighter" : "pen");
    });
    const swatch = draw("svg", { class: "ink-swatch", viewBox: "0 0 22 12", width: "22", height: "12", "aria-hidden": "true" });
    swatch.append(draw("path", { d: "M2 9Q8 0 11 6T20 4", "data-ink": String(i + 1), "stroke-width": String(size) }));
    button.prepend(swatch);
  });
  add(back, "pick", "Pick a stroke", acts.pick);
  add(back, "undo", "Undo ink", acts.undo);
  add(back, "redo", "Redo ink", acts.redo);
  add(back, "clear", "Clear", () => ask(true));
  const question = make("div", { class: "ink-question", role: "group", "aria-label": "Clear all ink of the sheet?", hidden: "" });
  question.append(make("span", {}, "Clear all ink?"));
  add(question, "sure", "Yes, clear", clear);
  add(question, "keep", "Keep it", () => ask(false));
  back.append(question);

  const reachable = () => Object.values(buttons).filter((button) => button.isConnected && !button.closest("[hidden]"));
  for (const button of Object.values(buttons)) button.tabIndex = -1;
  buttons.pen.tabIndex = 0;
  bar.addEventListener("focusin", (event) => {
    for (const button of Object.values(buttons)) button.tabIndex = button === event.target ? 0 : -1;
  });
  bar.addEventListener("keydown", (event) => {
    const list = reachable(), here = list.indexOf(/** @type {HTMLElement} */ (event.target));
    const to = { ArrowRight: here + 1, ArrowLeft: here - 1, Home: 0, End: list.length - 1 }[event.key];
    if (event.key === "Escape" && !question.hidden) ask(false);
    else if (to === undefined || here < 0) return;
    else list[(to + list.length) % list.length].focus();
    event.preventDefault();
  });
  return { bar, press, asking: () => !question.hidden, focus: (/** @type {string} */ name) => buttons[name].focus() };
}
