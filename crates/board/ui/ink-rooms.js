// Writing space between the blocks of a scene.

/**
 * @param {Board} board
 * @param {ReturnType<typeof inkSteps>} steps
 * @param {ReturnType<typeof inkBlocks>} sheet
 * @param {{ made: (element: HTMLElement | undefined, keyed: boolean) => void, removed: () => void }} then
 */
function inkRooms(board, steps, sheet, then) {
  const { LIMIT, ROOM, trace } = inkStrokes;
  const { make } = inkCanvas;

  /** @param {View} view */
  function showRooms(view) {
    const { rooms } = steps.scene(view.id);
    for (const [after, element] of view.rooms) {
      if (rooms.some((room) => room.after === after)) continue;
      element.remove();
      view.rooms.delete(after);
    }
    const all = rooms.length ? sheet.blocks(view) : [];
    for (const room of rooms) {
      const block = all.find(({ name }) => name === room.after)?.element;
      const element = view.rooms.get(room.after) ?? newRoom(view, room.after);
      element.style.height = `${room.height}px`;
      element.setAttribute("aria-label", `Writing space, ${Math.round(room.height)} px high`);
      if (!block) element.remove();
      else if (block.nextElementSibling !== element) block.after(element);
    }
  }
  /** @param {View} view @param {string} after */
  function newRoom(view, after) {
    const element = make("div", { class: "room", role: "group" });
    const bar = make("div", { class: "room-bar" });
    const acts = /** @type {[string, () => void][]} */ ([
      ["Taller", () => resize(view, after, ROOM.step)],
      ["Shorter", () => resize(view, after, -ROOM.step)],
      ["Remove", () => remove(view, after)],
    ]);
    for (const [label, act] of acts) {
      const button = make("button", { type: "button", class: "ink-button" }, label);
      button.addEventListener("click", act);
      bar.append(button);
    }
    element.addEventListener("keydown", (event) => {
      const by = { ArrowDown: 20, ArrowUp: -20 }[event.key];
      if (by) resize(view, after, by);
      else if (event.key === "Delete") remove(view, after);
      else return;
      event.preventDefault();
    });
    element.append(bar);
    view.rooms.set(after, element);
    return element;
  }
  /** @param {View} view @param {string} after */
  function add(view, after) {
    const { rooms, strokes } = steps.scene(view.id);
    if (rooms.length >= LIMIT.rooms) return void board.say("This scene has no place for more writing space.");
    const taken = steps.take({ [view.id]: { strokes, rooms: [...rooms, { after, height: ROOM.first }] } });
    if (taken) board.say(`Writing space made, ${ROOM.first} px high.`);
    return view.rooms.get(after);
  }
  /** @param {View} view @param {string} after @param {number} by */
  function resize(view, after, by) {
    const { strokes, rooms } = steps.scene(view.id), room = rooms.find((it) => it.after === after);
    const element = view.rooms.get(after);
    if (!room || !element) return;
    const name = `room/${after}`, { width } = sheet.frame({ name, element });
    let least = ROOM.least; // the ink in the space keeps its place
    for (const stroke of strokes) {
      if (stroke.on === name) least = Math.max(least, (trace(stroke).bottom * width * 10) / stroke.width + 8);
    }
    const wanted = Math.max(room.height + by, Math.min(least, room.height));
    const height = Math.round(Math.min(ROOM.most, Math.max(ROOM.least, wanted)));
    if (height === room.height) return board.say(by > 0 ? "No taller." : "No shorter: there is ink down to here.");
    const changed = rooms.map((it) => (it === room ? { after, height } : it));
    if (steps.take({ [view.id]: { strokes, rooms: changed } })) board.say(`Writing space ${height} px high.`);
  }
  /** @param {View} view @param {string} after */
  function remove(view, after) {
    const { strokes, rooms } = steps.scene(view.id);
    const stay = strokes.filter((stroke) => stroke.on !== `room/${after}`), gone = strokes.length - stay.length;
    steps.take({ [view.id]: { strokes: stay, rooms: rooms.filter((room) => room.after !== after) } });
    board.say(`Writing space removed${gone ? ` with ${gone} stroke${gone === 1 ? "" : "s"}` : ""}. Undo ink brings it back.`);
    then.removed();
  }

  // ---- where space can be made -------------------------------------------------------------------------------

  /** @param {View} view */
  function places(view) {
    const all = sheet.blocks(view), zero = view.pad.getBoundingClientRect().top, found = [];
    for (const [i, { name, element }] of all.entries()) {
      const box = element.getBoundingClientRect();
      if (!box.height || element.nextElementSibling?.matches(".room")) continue;
      const next = all[i + 1]?.element.getBoundingClientRect();
      found.push({ name, element, y: (next?.height ? (box.bottom + next.top) / 2 : box.bottom) - zero });
    }
    return found;
  }
  /** @param {View} view @param {boolean} asked whether places are to be shown */
  function showGaps(view, asked) {
    view.gaps.hidden = !asked;
    if (!asked) return view.gaps.replaceChildren();
    const spots = places(view);
    while (view.gaps.children.length > spots.length) view.gaps.lastElementChild?.remove();
    for (const [i, { element, y }] of spots.entries()) {
      let button = /** @type {HTMLElement | undefined} */ (view.gaps.children[i]);
      if (!button) {
        button = make("button", { type: "button", class: "ink-gap" });
        button.append(make("span", {}, "Make room here"));
        view.gaps.append(button);
      }
      const label = element.querySelector(".plate")?.getAttribute("aria-label") ?? element.textContent ?? "";
      const words = label.replace(/\s+/g, " ").trim().slice(0, 40);
      button.setAttribute("aria-label", `Make room here, after ${words ? `“${words}”` : `block ${i + 1}`}`);
      button.style.top = `${Math.round(y)}px`;
    }
  }
  /** A click between the blocks: the nearest place, or the one whose button was pressed by key.
   * @param {MouseEvent} event @param {View} view */
  function clicked(event, view) {
    const spots = places(view), y = event.clientY - view.pad.getBoundingClientRect().top;
    const keyed = event.detail === 0 && event.target !== view.gaps;
    const nearest = spots.reduce((best, spot) => (Math.abs(spot.y - y) < Math.abs(best.y - y) ? spot : best), spots[0]);
    const spot = keyed ? spots[[...view.gaps.children].indexOf(/** @type {Element} */ (event.target))] : nearest;
    if (spot) then.made(add(view, spot.name), keyed);
  }
  return { showRooms, showGaps, clicked };
}
