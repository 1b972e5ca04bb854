// Strokes taken off one by one without a pointer: a list of all strokes that can be seen, walked by the arrows.

/**
 * @param {Board} board
 * @param {ReturnType<typeof inkBlocks>} sheet
 * @param {{ wipe: (doomed: Set<Stroke>) => void, back: () => void }} acts
 */
function inkPick(board, sheet, { wipe, back }) {
  const { INKS } = inkStrokes;
  const { make, pathOf } = inkCanvas;
  const list = make("div", { class: "ink-pick", role: "listbox", tabindex: "0", "aria-label": "Strokes", hidden: "" });
  const option = make("span", { role: "option", id: "ink-picked", "aria-selected": "true" });
  const keys = make("span", { class: "ink-pick-keys", "aria-hidden": "true" }, "Arrow keys go to another, Delete erases it, Escape ends.");
  list.append(option, keys);
  /** @type {Stroke | null} */
  let picked = null;

  /** The strokes that can be seen, in the order of the sheet. @returns {{ stroke: Stroke, leaf: Leaf, view: View }[]} */
  function all() {
    const found = [];
    for (const view of sheet.views.values()) {
      const layers = [...view.layers.values()].filter(({ leaf }) => leaf.element.isConnected && sheet.frame(leaf).width > 0);
      layers.sort((a, b) => (a.leaf.element.compareDocumentPosition(b.leaf.element) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1));
      for (const { leaf, shown } of layers) for (const stroke of shown) found.push({ stroke, leaf, view });
    }
    return found;
  }
  /** What a stroke is and where. @param {{ stroke: Stroke, leaf: Leaf, view: View }} it */
  function words({ stroke, leaf, view }) {
    const place = leaf.element.closest("figure")?.querySelector("figcaption")?.firstChild?.textContent ??
      view.section.querySelector("h2")?.textContent ?? "";
    return `${stroke.tool === "pen" ? "pen" : "highlighter"}, ${INKS[stroke.ink - 1].name.toLowerCase()}, on: ${place.trim()}`;
  }
  /** @param {number} place @param {string} [before] what has just happened, to be said first */
  function go(place, before = "") {
    const strokes = all();
    const it = strokes[Math.max(0, Math.min(place, strokes.length - 1))];
    if (!it) {
      close();
      board.say(`${before} No stroke is left.`.trim());
      return;
    }
    mark(it.stroke);
    option.textContent = `Stroke ${strokes.indexOf(it) + 1} of ${strokes.length}: ${words(it)}`;
    list.setAttribute("aria-activedescendant", option.id);
    pathOf(it.stroke).scrollIntoView({ block: "center", inline: "nearest", behavior: "instant" });
    board.say(`${before} ${option.textContent}.`.trim());
  }
  /** @param {Stroke | null} stroke */
  function mark(stroke) {
    if (picked) pathOf(picked).classList.remove("ink-picked");
    picked = stroke;
    if (picked) pathOf(picked).classList.add("ink-picked");
  }
  function close() {
    const had = list.contains(document.activeElement);
    mark(null);
    list.hidden = true;
    if (had) back();
  }

  list.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const strokes = all();
    const here = strokes.findIndex(({ stroke }) => stroke === picked);
    const to = { ArrowRight: here + 1, ArrowDown: here + 1, ArrowLeft: here - 1, ArrowUp: here - 1, Home: 0, End: strokes.length - 1 }[event.key];
    if (to !== undefined) go(to);
    else if ((event.key === "Delete" || event.key === "Backspace") && picked) {
      wipe(new Set([picked]));
      go(Math.max(0, here), "1 stroke erased.");
    } else if (event.key === "Escape" || event.key === "Enter") close();
    else return;
    event.preventDefault();
    // The toolbar around it walks its buttons by the same keys.
    event.stopPropagation();
  });
  list.addEventListener("focusout", () => queueMicrotask(() => {
    if (!list.hidden && document.activeElement !== list && document.hasFocus()) close();
  }));

  return {
    list,
    picking: () => !list.hidden,
    open() {
      if (all().length === 0) return board.say("There is no stroke to pick.");
      list.hidden = false;
      list.focus();
      const first = all().findIndex(({ stroke }) => {
        const { top, bottom } = pathOf(stroke).getBoundingClientRect();
        return bottom > 0 && top < innerHeight;
      });
      go(Math.max(0, first));
    },
    /** The strokes may be others now. */
    changed() {
      if (!list.hidden && !all().some(({ stroke }) => stroke === picked)) mark(null);
    },
  };
}
