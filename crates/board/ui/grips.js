// What can be dragged in the drawings: handles that lie over them, for the mouse, the finger and the keyboard.
//
// A drawing is exchanged or edited at any time, its handles stay: they live in a layer beside the drawing, one element
// for each handle as long as the engine names it, so that the hand and the focus are not lost.
//
// Keys on a handle: arrows one step the way they point (with Shift a tenth), Page Up and Page Down ten steps, Home and
// End to the ends, N and Shift+N to the next and the last place of rest, Enter or F2 to type a value, Escape back.

/**
 * Lays handles over the drawings of a board; to be called once, before the board has its first answer.
 * @param {object} board
 */
function grips(board) {
  /** How long a run of key presses may pause and still be one step of undo, ms. */
  const PAUSE = 600;
  /** The smallest target, px: WCAG 2.2, 2.5.8. */
  const LEAST = 24;
  /** So many handles hide a drawing, if each shows all that it has. */
  const MANY = 14;
  /** A drawing with many handles shows only one of each load where it is narrower than this, px. */
  const NARROW = 520;
  const coarse = matchMedia("(pointer: coarse)");
  /** The layers by the id of their drawing: its elements, its marks (by the id of the handle) and how it is seen. */
  const layers = new Map();
  /** Each mark by its element: the handle as the engine last told it, and where it stands, px of the layer. */
  const marks = new Map();
  let hovered = null;
  let drag = null;
  let run = null;
  let entry = null;
  let lastClick = { mark: null, time: 0 };

  const tag = make("div", "grip-tag");
  tag.setAttribute("aria-hidden", "true");
  const tagName = document.createTextNode("");
  const tagValue = make("b", "");
  const tagPlace = document.createTextNode("");
  tag.append(tagName, tagValue, tagPlace);

  // A page that was saved has the hint already.
  const hint = document.getElementById("grip-keys") ?? make("p", "");
  hint.id = "grip-keys";
  hint.hidden = true;
  hint.textContent = "Arrow keys move it, N goes to the next place of rest, Enter takes an exact value.";
  document.body.append(hint);

  function make(kind, name) {
    const element = document.createElement(kind);
    element.className = name;
    return element;
  }
  const messageShown = () => document.getElementById("message").textContent;
  const spoken = ({ handle }) => `${handle.label} ${handle.shown}${gripRest(handle)}`;

  // The layers follow their drawings.

  board.applied((done, focused) => {
    const touched = new Set();
    if (done.sheet !== null) {
      for (const layer of layers.values()) if (attach(layer)) touched.add(layer);
    }
    for (const [id, handles] of done.grips) {
      const layer = layers.get(id) ?? newLayer(id);
      if (!layer) continue;
      fill(layer, handles);
      touched.add(layer);
    }
    for (const id of [...[...done.pieces, ...done.drawings].map(([id]) => id), ...(done.laid ?? [])]) if (layers.has(id)) touched.add(layers.get(id));
    arrange(touched);
    keepFocus(focused);
    showTag();
  });

  const sizes = new ResizeObserver((sized) => {
    const touched = new Set(sized.map(({ target }) => layers.get(target.dataset.grips ?? target.id)));
    touched.delete(undefined);
    for (const layer of touched) layer.view = null;
    arrange(touched);
    showTag();
  });
  // What answers above a drawing may grow, and so may its own sheet; its marks stay under the hand, before anything of it is painted.
  new ResizeObserver(() => {
    const held = drag ?? run;
    if (!held?.mark.layer.plate) return;
    const off = gripZero(held.mark.layer)[1] - held.origin[1];
    if (Math.abs(off) > 0.5) scrollBy({ top: off, behavior: "instant" });
  }).observe(board.sheet);
  coarse.addEventListener("change", () => arrange(new Set(layers.values())));

  function newLayer(id) {
    const layer = { id, element: make("div", "grips"), marks: new Map(), view: null, piece: null, plate: null, chosen: null };
    layers.set(id, layer);
    return attach(layer) ? layer : null;
  }

  /** Puts a layer beside its drawing; without one it is given up. */
  function attach(layer) {
    for (const old of [layer.piece, layer.plate]) if (old) sizes.unobserve(old);
    layer.piece = document.getElementById(layer.id);
    layer.plate = layer.piece?.closest(".plate");
    layer.view = null;
    if (!layer.plate) {
      fill(layer, []);
      layers.delete(layer.id);
      return false;
    }
    layer.plate.append(layer.element);
    layer.plate.dataset.grips = layer.id;
    sizes.observe(layer.piece);
    sizes.observe(layer.plate);
    return true;
  }

  /** Gives a layer these handles; an element whose handle stays is kept. */
  function fill(layer, handles) {
    const named = new Set(handles.map((handle) => handle.id));
    layer.element.toggleAttribute("data-many", handles.length > MANY);
    for (const [id, mark] of layer.marks) {
      if (named.has(id)) continue;
      mark.element.remove();
      marks.delete(mark.element);
      layer.marks.delete(id);
      if (hovered === mark) hovered = null;
    }
    let next = layer.element.firstElementChild;
    for (const handle of handles) {
      const mark = layer.marks.get(handle.id) ?? newMark(layer, handle.id);
      if (mark.element === next) next = next.nextElementSibling;
      else layer.element.insertBefore(mark.element, next);
      tell(mark, handle);
    }
  }

  function newMark(layer, id) {
    const mark = { layer, id, element: make("div", "grip"), x: 0, y: 0, shift: [0, 0], size: LEAST };
    mark.element.append(make("i", ""));
    mark.element.tabIndex = 0;
    mark.element.setAttribute("role", "slider");
    mark.element.setAttribute("aria-describedby", hint.id);
    mark.element.setAttribute("aria-keyshortcuts", "N Shift+N Enter F2");
    layer.marks.set(id, mark);
    marks.set(mark.element, mark);
    listen(mark);
    return mark;
  }

  function tell(mark, handle) {
    mark.handle = handle;
    for (const [name, value] of Object.entries(gripSaid(handle))) {
      if (mark.element.getAttribute(name) !== String(value)) mark.element.setAttribute(name, value);
    }
  }

  /** Brings marks to their places: first everything is measured, then everything is written. */
  function arrange(touched) {
    for (const layer of touched) measure(layer);
    for (const layer of touched) {
      layer.element.toggleAttribute("data-placed", layer.view !== null);
      if (!layer.view) continue;
      const { left, top, width, height } = layer.view;
      Object.assign(layer.element.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
      // Under a hand nothing jumps aside.
      if (drag?.mark.layer !== layer) spread(layer);
      for (const mark of layer.marks.values()) if (!mark.element.hidden) write(mark);
    }
  }

  /** How the drawing lies in its plate; it is measured anew only where the drawing has another frame or size. */
  function measure(layer) {
    const svg = layer.piece.querySelector("svg");
    const viewBox = svg?.getAttribute("viewBox");
    if (layer.view && layer.view.viewBox === viewBox) return;
    const box = layer.piece.getBoundingClientRect();
    const matrix = box.width > 0 ? svg?.getScreenCTM() : null;
    layer.view = null;
    if (!matrix || !(matrix.a > 0)) return;
    const origin = gripOrigin(layer.plate);
    layer.view = {
      viewBox, scale: matrix.a, x: matrix.e - box.left, y: matrix.f - box.top,
      left: box.left - origin[0], top: box.top - origin[1], width: box.width, height: box.height,
    };
  }

  function meant({ handle, layer: { view } }) {
    return [handle.at[0] * view.scale + view.x, handle.at[1] * view.scale + view.y];
  }

  /** Shows the marks that there is room for, and moves those that would lie on one another apart, so that each can be reached. */
  function spread(layer) {
    const ids = [...layer.marks.keys()];
    const crowded = ids.length > MANY && layer.view.width < NARROW;
    for (const [id, mark] of layer.marks) mark.element.hidden = crowded && !gripShows(id, ids, layer.chosen);
    const all = [...layer.marks.values()].filter(({ element }) => !element.hidden);
    const spots = all.map((mark) => ({ at: meant(mark), along: mark.handle.axis === "along" }));
    // So many that they would be thrown far apart stand closer, also for a finger.
    const [apart, largest] = coarse.matches && ids.length <= MANY ? [36, 44] : [LEAST + 2, 28];
    const parted = gripsParted(spots, layer.view, { least: LEAST, apart, largest });
    all.forEach((mark, index) => Object.assign(mark, parted[index]));
  }

  function write(mark) {
    const [x, y] = meant(mark);
    const [across, down] = mark.shift;
    [mark.x, mark.y] = [x + across, y + down];
    mark.element.style.transform = `translate(${mark.x}px, ${mark.y}px) translate(-50%, -50%)`;
    mark.element.style.setProperty("--size", `${mark.size}px`);
    const off = Math.hypot(across, down);
    mark.element.toggleAttribute("data-moved", off > 4);
    if (off > 4) {
      const line = mark.element.firstElementChild.style;
      line.width = `${off}px`;
      line.transform = `rotate(${Math.atan2(-down, -across)}rad)`;
    }
  }

  /** The focus stays on its handle though the page around it was exchanged. */
  function keepFocus(focused) {
    if (!focused || focused === document.activeElement) return;
    const layer = marks.get(focused)?.layer ?? (focused === entry?.input ? entry.mark.layer : null);
    if (layer) focused.focus({ preventScroll: true });
    else if (focused.classList.contains("grip") && !focused.isConnected) {
      board.sheet.querySelector(`[data-grips="${CSS.escape(focused.dataset.of)}"]`)?.focus({ preventScroll: true });
    }
  }

  /** Shows name and value at the handle that is dragged, pointed at or focused. */
  function showTag() {
    const mark = drag?.mark ?? hovered ?? marks.get(document.activeElement);
    tag.hidden = !mark?.layer.view || entry !== null;
    if (tag.hidden) return;
    if (tag.parentElement !== mark.layer.element) mark.layer.element.append(tag);
    tagName.data = `${mark.handle.label} `;
    tagValue.textContent = mark.handle.shown;
    tagPlace.data = gripRest(mark.handle);
    const gap = mark.size / 2 + (drag?.touch ? 28 : 4);
    tag.style.transform = gripBeside(mark, mark.layer.view, gap, mark.y - gap < 34);
  }

  function listen(mark) {
    const { element } = mark;
    element.dataset.of = mark.layer.id;
    element.addEventListener("pointerdown", (event) => begin(mark, event));
    element.addEventListener("pointerenter", (event) => { if (event.pointerType !== "touch") hover(mark); });
    element.addEventListener("pointerleave", () => { if (hovered === mark) hover(null); });
    element.addEventListener("contextmenu", (event) => { if (drag) event.preventDefault(); });
    element.addEventListener("focusin", () => {
      choose(mark);
      showTag();
    });
    element.addEventListener("keydown", (event) => press(mark, event));
    // A sheet that is exchanged takes the focus away and gets it back at once: that is no leaving.
    element.addEventListener("focusout", () => queueMicrotask(() => {
      if (document.activeElement === element) return;
      if (run?.mark === mark) endRun();
      showTag();
    }));
  }

  /** A load is chosen by any of its handles: the others come into view. */
  function choose({ id, layer }) {
    if (layer.chosen === gripLoad(id)) return;
    layer.chosen = gripLoad(id);
    arrange([layer]);
  }

  function hover(mark) {
    hovered = mark;
    showTag();
  }

  // Dragging.

  function begin(mark, event) {
    if (event.button !== 0 || event.ctrlKey || drag || !mark.layer.view) return;
    // No text is selected, and no mouse that a finger pretends to be takes the focus afterwards.
    event.preventDefault();
    endRun();
    mark.element.focus({ preventScroll: true });
    const { value, per_px, low, high, axis } = mark.handle;
    drag = {
      mark, pointer: event.pointerId, touch: event.pointerType === "touch", moving: false, frame: 0, refused: "", sent: "",
      // All as it was in the beginning: a drawing that rescales under the hand must not run away.
      value, perPx: per_px / mark.layer.view.scale, low, high, axis,
      began: [event.clientX, event.clientY], now: [event.clientX, event.clientY], origin: gripZero(mark.layer), fine: false,
    };
    // To the window, not to the element: the sheet may be exchanged under the hand.
    for (const [kind, act] of Object.entries(whileDragging)) addEventListener(kind, act, true);
  }

  const whileDragging = {
    pointermove(event) {
      if (event.pointerId !== drag.pointer) return;
      drag.now = [event.clientX, event.clientY];
      drag.fine = event.shiftKey;
      const far = Math.hypot(drag.now[0] - drag.began[0], drag.now[1] - drag.began[1]);
      if (!drag.moving && far < (drag.touch ? 6 : 3)) return;
      if (!drag.moving) {
        drag.moving = true;
        drag.mark.element.setPointerCapture(drag.pointer);
        drag.mark.element.toggleAttribute("data-held", true);
      }
      drag.frame ||= requestAnimationFrame(follow);
    },
    pointerup(event) {
      if (event.pointerId !== drag.pointer) return;
      if (drag.frame) follow();
      if (!drag) return;
      const { mark, moving, refused } = stopDragging();
      if (moving) return settle(mark, refused);
      const again = lastClick.mark === mark && event.timeStamp - lastClick.time < 500;
      lastClick = { mark: again ? null : mark, time: event.timeStamp };
      if (again) openEntry(mark);
    },
    pointercancel(event) {
      if (event.pointerId === drag.pointer) giveUp();
    },
    keydown(event) {
      // Neither undo nor the lecture comes between the hand and its drag.
      if (event.key === "Shift") return;
      event.preventDefault();
      event.stopPropagation();
      if (event.key === "Escape") giveUp();
    },
  };

  /** Takes the drag to where the hand is: once a frame, however often it moved. */
  function follow() {
    cancelAnimationFrame(drag.frame);
    drag.frame = 0;
    const { mark } = drag;
    if (!mark.element.isConnected) return giveUp();
    // The page may have moved beneath the hand.
    const origin = gripZero(mark.layer);
    const [right, down] = [0, 1].map((way) => drag.now[way] - origin[way] - (drag.began[way] - drag.origin[way]));
    const value = gripBetween(drag.low, drag.value + drag.perPx * (drag.axis === "up" ? -down : right), drag.high);
    const asked = `${value} ${drag.fine}`;
    if (asked === drag.sent) return;
    drag.sent = asked;
    drag.refused = order(mark, value, !drag.fine);
  }

  function stopDragging() {
    const was = drag;
    cancelAnimationFrame(was.frame);
    drag = null;
    was.mark.element.removeAttribute("data-held");
    for (const [kind, act] of Object.entries(whileDragging)) removeEventListener(kind, act, true);
    return was;
  }

  /** @returns {string} why it was refused, or nothing */
  function order(mark, value, snap) {
    return board.drag(mark.layer.id, mark.id, value, snap) ? "" : messageShown();
  }

  function giveUp() {
    const { mark, moving } = drag ? stopDragging() : stopRun();
    if (!moving) return;
    board.release();
    rest(mark);
    board.say(`${mark.handle.label} back at ${mark.handle.shown}`);
  }

  /** What was reached becomes one step of undo. A refusal stays to be read: it says why the handle did not follow. */
  function settle(mark, refused) {
    const moved = board.text !== board.rest;
    board.commit();
    rest(mark);
    if (refused) board.tell(refused);
    const words = [moved ? spoken(mark) : "", refused].filter(Boolean).join(". ");
    if (words) board.say(words);
  }

  function rest(mark) {
    if (layers.has(mark.layer.id)) arrange([mark.layer]);
    showTag();
  }

  // Keys.

  function press(mark, event) {
    // An undo finds what the keys did before as a step of its own.
    if (event.ctrlKey || event.metaKey || event.altKey) return endRun();
    const { handle } = mark;
    const fine = event.shiftKey;
    const forward = handle.per_px < 0 ? -1 : 1;
    const steps = {
      ArrowRight: forward, ArrowUp: forward, ArrowLeft: -forward, ArrowDown: -forward,
      PageUp: 10 * forward, PageDown: -10 * forward,
    }[event.key];
    if (steps !== undefined) go(mark, gripStepped(handle, steps, fine), false, event);
    else if (event.key === "Home") go(mark, handle.low, false, event);
    else if (event.key === "End") go(mark, handle.high, false, event);
    else if (event.key.toLowerCase() === "n") {
      const next = gripNextSnap(handle, fine ? -1 : 1);
      if (next === undefined) board.say("There is no further place of rest.");
      else go(mark, next, true, event);
    } else if (event.key === "Enter" || event.key === "F2") openEntry(mark);
    else if (event.key === "Escape" && run) giveUp();
    else return;
    event.preventDefault();
  }

  function go(mark, wanted, snap, event) {
    const value = gripBetween(mark.handle.low, wanted, mark.handle.high);
    // A key that is held down goes no faster than the page can show.
    if (event.repeat && run?.busy) return;
    if (value === mark.handle.value && !run) return;
    run ??= { mark, refused: "", timer: 0, origin: gripZero(mark.layer) };
    run.busy = true;
    requestAnimationFrame(() => { if (run) run.busy = false; });
    clearTimeout(run.timer);
    run.timer = setTimeout(endRun, PAUSE);
    run.refused = order(mark, value, snap);
  }

  function stopRun() {
    const was = run;
    clearTimeout(was.timer);
    run = null;
    return { ...was, moving: true };
  }

  /** A run of key presses becomes one step of undo. */
  function endRun() {
    if (!run) return;
    const { mark, refused } = stopRun();
    settle(mark, refused);
  }

  // A value that is typed.

  function openEntry(mark) {
    endRun();
    const input = make("input", "grip-entry");
    Object.assign(input, { type: "text", value: mark.handle.written, autocomplete: "off", spellcheck: false });
    input.setAttribute("aria-label", mark.handle.label);
    entry = { mark, input };
    mark.layer.element.append(input);
    input.style.transform = gripBeside(mark, mark.layer.view, mark.size / 2 + 4, true);
    input.addEventListener("keydown", (event) => {
      event.stopPropagation();
      if (event.key === "Enter") take(mark, input, true);
      if (event.key === "Escape") {
        board.tell("");
        closeEntry(true);
      }
      if (event.key === "Enter" || event.key === "Escape") event.preventDefault();
    });
    input.addEventListener("focusout", () => queueMicrotask(() => {
      if (entry?.input === input && document.activeElement !== input && document.hasFocus()) take(mark, input, false);
    }));
    showTag();
    input.focus({ preventScroll: true });
    input.select();
  }

  /** Takes what was typed; refused, it stays to be mended as long as the box has the focus. */
  function take(mark, input, stay) {
    const before = board.text;
    if (input.value.trim() === mark.handle.written || board.set(mark.handle.path, input.value)) {
      closeEntry(stay);
      if (board.text !== before) board.say(spoken(mark));
      return;
    }
    board.say(messageShown());
    if (!stay) return closeEntry(false);
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-describedby", "message");
  }

  function closeEntry(focusHandle) {
    const { mark, input } = entry;
    entry = null;
    if (focusHandle) mark.element.focus({ preventScroll: true });
    input.remove();
    showTag();
  }
}
