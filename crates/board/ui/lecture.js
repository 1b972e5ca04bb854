// The lecture on the board: the sheet shown step by step, questions before answers, the list of scenes, and the look for
// the wall. It decides only what is seen; what stands in a step is written by others, at any time. It hides whole
// `.scene` and `.step` elements and puts questions beside a step, never into it.

/**
 * What the board gives its parts.
 * @typedef {object} LectureBoard
 * @property {HTMLElement} sheet the `<main>` with the scenes
 * @property {HTMLElement} bar the `<header>` for controls
 * @property {(words: string) => void} say announces words politely, once
 * @property {Record<string, unknown>} kept what is saved with the page; this part owns `kept.lecture`
 * @property {(listener: (done: {sheet: string | null}) => void) => void} [applied] tells of each change of the page
 * @property {() => void} touched says that something kept has changed
 */

/**
 * Where the lecture stands.
 * @typedef {object} LectureState
 * @property {boolean} on the sheet is shown step by step
 * @property {boolean} predict questions stand before their answers
 * @property {boolean} key the key G opens the list of scenes
 * @property {string} scene name of the scene that is being taught or read
 * @property {Map<string, number>} shown steps shown so far, by scene name; 0 or absent: the scene waits
 * @property {Set<string>} answered steps (scene name, blank, place from 0) whose answer is revealed
 */

/**
 * Sets up the lecture on a board.
 * @param {LectureBoard} board
 * @returns {void}
 */
function lecture(board) {
  const root = document.documentElement;

  // A page saved in the middle of a lecture brings its traces along: begin from the bare sheet.
  for (const old of document.querySelectorAll(".lecture-tools, .lecture-scenes, .predict")) old.remove();
  for (const part of board.sheet.querySelectorAll("[data-waiting]")) wait(part, false);
  delete root.dataset.view;

  /** @type {Map<string, HTMLElement>} */
  const scenes = new Map();
  /** @type {string[]} */
  const names = [];
  gather();
  const state = lectureState(board.kept.lecture, new Map(names.map((name) => [name, stops(name)])));
  /** @type {Map<HTMLElement, HTMLElement>} the question that stands before a step */
  const questions = new Map();
  const { scroll, bring, bringEnd, arrive, goTo, free } = lectureWay(root);
  let wall = false;
  let held = false; // the scene was chosen, and stays the current one till the reader scrolls by hand

  function gather() {
    scenes.clear();
    for (const scene of board.sheet.querySelectorAll(".scene[id^=scene-]")) {
      if (scene instanceof HTMLElement) scenes.set(scene.id.slice("scene-".length), scene);
    }
    names.splice(0, names.length, ...scenes.keys());
  }

  /** @param {string} name @returns {HTMLElement[]} */
  function steps(name) {
    return /** @type {HTMLElement[]} */ ([...(scenes.get(name)?.querySelectorAll(".step") ?? [])]);
  }

  /** How often a scene can be stepped to: a scene without steps is one stop. @param {string} name @returns {number} */
  function stops(name) {
    return Math.max(1, steps(name).length);
  }

  /** @param {string} name @returns {number} */
  function shown(name) {
    return Math.min(state.shown.get(name) ?? 0, stops(name));
  }

  /** @param {string} name @returns {string} */
  function title(name) {
    return scenes.get(name)?.querySelector("h2")?.textContent?.trim().replace(/\s+/g, " ") || name;
  }

  /** Whether a step of a scene still keeps its answer back. @param {string} name @param {number} place @returns {boolean} */
  function asks(name, place) {
    return state.predict && !!steps(name)[place]?.dataset.predict && !state.answered.has(`${name} ${place}`);
  }

  /**
   * Takes a part out of sight, out of the tab order and out of what is read aloud, or puts it back.
   * @param {Element} part
   * @param {boolean} waits
   */
  function wait(part, waits) {
    if (waits === part.hasAttribute("data-waiting")) return;
    for (const attribute of ["data-waiting", "hidden", "inert"]) part.toggleAttribute(attribute, waits);
  }

  /**
   * @template {keyof HTMLElementTagNameMap} T
   * @param {T} tag
   * @param {string} className
   * @param {string} [text]
   * @returns {HTMLElementTagNameMap[T]}
   */
  function make(tag, className, text = "") {
    const made = document.createElement(tag);
    if (className) made.className = className;
    made.textContent = text;
    return made;
  }

  /** @param {HTMLElement} parent @param {string} text @param {() => void} act @returns {HTMLButtonElement} */
  function button(parent, text, act) {
    const made = make("button", "", text);
    made.type = "button";
    made.addEventListener("click", act);
    parent.append(made);
    return made;
  }

  // The controls.

  const tools = make("div", "lecture-tools");
  tools.setAttribute("role", "group");
  tools.setAttribute("aria-label", "Lecture");
  const lectureButton = button(tools, "Lecture", () => setLecture(!state.on));
  const predictButton = button(tools, "Predict first", () => setPredict(!state.predict));
  const wallButton = button(tools, "Full screen", () => setWall(!wall));
  const scenesButton = button(tools, "Scenes ", openScenes);
  scenesButton.setAttribute("aria-haspopup", "dialog");
  const scenePlace = make("span", "lecture-place");
  scenesButton.append(scenePlace);
  const pager = make("div", "lecture-pager");
  button(pager, "Back", back);
  const stepPlace = make("span", "lecture-place");
  pager.append(stepPlace);
  button(pager, "Next", next);
  tools.append(pager);
  board.bar.insertBefore(tools, board.bar.querySelector("#more-open"));

  const list = make("dialog", "lecture-scenes");
  list.setAttribute("aria-label", "Scenes");
  const nav = make("nav", "");
  nav.setAttribute("aria-label", "Scenes");
  const entries = make("ol", "");
  nav.append(entries);
  const keyLabel = make("label", "");
  const keyBox = make("input", "");
  keyBox.type = "checkbox";
  keyBox.checked = state.key;
  keyBox.addEventListener("change", () => {
    state.key = keyBox.checked;
    keep();
  });
  keyLabel.append(keyBox, "The key G opens this list");
  const listEnd = make("div", "lecture-scenes-end");
  button(listEnd, "Start over", startOver);
  button(listEnd, "Close", () => list.close());
  list.append(make("p", "lecture-scenes-title", "Scenes"), nav, keyLabel, listEnd);
  document.body.append(list);

  // What is seen.

  /** Writes the state onto the sheet and the bar. The focus never stays in a part that went out of sight. */
  function apply() {
    const focused = document.activeElement;
    root.toggleAttribute("data-lecture", state.on);
    if (wall) root.dataset.view = "wall";
    else delete root.dataset.view;
    for (const [name, scene] of scenes) {
      const count = state.on ? shown(name) : Infinity;
      wait(scene, count === 0 || (wall && name !== state.scene));
      steps(name).forEach((step, place) => {
        const asked = asks(name, place);
        wait(step, place >= count || asked);
        if (asked) question(name, place, step).hidden = place >= count;
        else {
          questions.get(step)?.remove();
          questions.delete(step);
        }
      });
    }
    lectureButton.setAttribute("aria-pressed", String(state.on));
    predictButton.setAttribute("aria-pressed", String(state.predict));
    wallButton.setAttribute("aria-pressed", String(wall));
    pager.hidden = !state.on && !wall;
    stepPlace.textContent = state.on ? `Step ${shown(state.scene)} of ${stops(state.scene)}` : "";
    showPlace();
    measure();
    if (focused && focused !== document.body && (!focused.isConnected || focused.closest("[hidden]"))) {
      focus(scenes.get(state.scene)?.querySelector("h2"));
    }
  }

  function showPlace() {
    scenePlace.textContent = `${names.indexOf(state.scene) + 1} of ${names.length}`;
  }

  /**
   * The question that stands in place of a step.
   * @param {string} name
   * @param {number} place
   * @param {HTMLElement} step
   * @returns {HTMLElement}
   */
  function question(name, place, step) {
    let card = questions.get(step);
    if (!card) {
      card = make("div", "predict");
      card.setAttribute("role", "group");
      card.setAttribute("aria-label", "Question");
      card.append(make("p", ""));
      button(card, "Reveal the answer", () => reveal(name, place, true));
      questions.set(step, card);
    }
    if (card.nextElementSibling !== step) step.before(card);
    const asked = card.querySelector("p");
    if (asked && asked.textContent !== step.dataset.predict) asked.textContent = step.dataset.predict ?? "";
    return card;
  }

  /** How much of the window the bars cover, so that nothing is scrolled beneath them. */
  function measure() {
    const covers = (/** @type {HTMLElement} */ part, /** @type {string} */ kind) =>
      new RegExp(kind).test(getComputedStyle(part).position) ? part.getBoundingClientRect().height : 0;
    root.style.setProperty("--lecture-above", `${Math.ceil(covers(board.bar, "sticky|fixed"))}px`);
    root.style.setProperty("--lecture-below", `${Math.ceil(covers(pager, "fixed"))}px`);
  }

  /** @param {Element | null | undefined} part */
  function focus(part) {
    if (!(part instanceof HTMLElement)) return;
    if (part.tabIndex < 0 && !part.hasAttribute("tabindex")) {
      part.tabIndex = -1;
      part.addEventListener("blur", () => part.removeAttribute("tabindex"), { once: true });
    }
    part.focus({ preventScroll: true });
  }

  /**
   * Brings what the window cuts off from what is being taught into sight, by less than a window.
   * @param {1 | -1} way 1 for what lies below, -1 for what lies above
   * @returns {boolean} whether there was any
   */
  function turn(way) {
    if (!state.on && !wall) return false;
    arrive();
    const scene = scenes.get(state.scene);
    const step = state.on ? face(state.scene, shown(state.scene) - 1) : scene;
    if (!step) return false;
    const far = way > 0 ? foldBelow(step, free()) : -foldAbove(shown(state.scene) > 1 ? step : (scene ?? step), free());
    const to = Math.max(0, Math.min(scrollY + far, root.scrollHeight - innerHeight));
    if (Math.abs(to - scrollY) < 1) return false;
    goTo(to);
    board.say(way > 0 ? "What stands below." : "What stands above.");
    return true;
  }

  /**
   * What stands for a step: its question, or itself.
   * @param {string} name
   * @param {number} place
   * @returns {HTMLElement | undefined}
   */
  function face(name, place) {
    const step = steps(name)[place];
    return questions.get(step) ?? step ?? scenes.get(name);
  }

  /** @param {string} name @param {number} place @returns {string} */
  function words(name, place) {
    const step = steps(name)[place];
    if (!step) return "";
    return asks(name, place) ? `Question: ${step.dataset.predict}` : lectureWords(step);
  }

  /** @param {string} name @returns {string} */
  function whereabouts(name) {
    return `Scene ${names.indexOf(name) + 1} of ${names.length}: ${title(name)}.`;
  }

  function keep() {
    const { on, predict, key, scene, shown, answered } = state;
    board.kept.lecture = { on, predict, key, scene, shown: [...shown], answered: [...answered] };
    board.touched();
  }

  // Another lesson may have other scenes and steps; the sheet is then exchanged as a whole.
  board.applied?.((done) => {
    if (done.sheet === null) return;
    gather();
    questions.clear();
    if (!scenes.has(state.scene)) state.scene = names[0];
    apply();
  });

  // What the lecturer does.

  /** Shows so many steps of the current scene. @param {number} count @param {boolean} [fromBelow] by a step back */
  function showSteps(count, fromBelow = false) {
    const name = state.scene;
    state.shown.set(name, count);
    apply();
    keep();
    const newest = face(name, count - 1);
    if (fromBelow) bringEnd(newest);
    else if (count === 1) scroll(scenes.get(name), "start");
    else bring(newest);
    board.say(`Step ${count} of ${stops(name)}. ${words(name, count - 1)}`);
  }

  function next() {
    const name = state.scene;
    if (turn(1)) return;
    if (state.on) {
      const count = shown(name);
      const asked = steps(name).findIndex((_, place) => place < count && asks(name, place));
      if (asked >= 0) return reveal(name, asked, false);
      if (count < stops(name)) return showSteps(count + 1);
    }
    const after = names[names.indexOf(name) + 1];
    if (after === undefined) board.say("This is the end of the sheet.");
    else toScene(after);
  }

  function back() {
    const name = state.scene;
    const count = shown(name);
    const before = names[names.indexOf(name) - 1];
    if (turn(-1)) return;
    if (state.on) {
      const mark = `${name} ${count - 1}`;
      if (state.predict && steps(name)[count - 1]?.dataset.predict && state.answered.delete(mark)) return showSteps(count, true);
      if (count > 1) return showSteps(count - 1, true);
      if (before !== undefined) {
        state.shown.delete(name);
        if (shown(before) === 0) state.shown.set(before, stops(before));
        state.scene = before;
        apply();
        keep();
        bringEnd(face(before, shown(before) - 1));
        return board.say(`${whereabouts(before)} Step ${shown(before)} of ${stops(before)}.`);
      }
    }
    if (before === undefined) return board.say("This is the beginning of the sheet.");
    toScene(before);
    bringEnd(scenes.get(before));
  }

  /** @param {string} name @param {boolean} [takeFocus] */
  function toScene(name, takeFocus = false) {
    const isNew = state.on && shown(name) === 0;
    if (isNew) state.shown.set(name, 1);
    state.scene = name;
    held = true;
    apply();
    keep();
    const scene = scenes.get(name);
    scroll(scene, "start");
    if (takeFocus) focus(scene?.querySelector("h2"));
    board.say(`${whereabouts(name)} ${isNew ? words(name, 0) : ""}`.trim());
  }

  /** @param {string} name @param {number} place @param {boolean} takeFocus */
  function reveal(name, place, takeFocus) {
    const step = steps(name)[place];
    if (!step) return;
    const within = questions.get(step)?.contains(document.activeElement);
    state.answered.add(`${name} ${place}`);
    wait(step, false);
    if (takeFocus || within) focus(step);
    apply();
    keep();
    bring(step);
    board.say(`Answer: ${lectureWords(step)}`);
  }

  /** Changes what is seen while the current part stays where it is in the window. @param {() => void} change */
  function inPlace(change) {
    const anchor = state.on ? face(state.scene, shown(state.scene) - 1) : scenes.get(state.scene);
    const before = anchor?.getBoundingClientRect().top ?? 0;
    change();
    const now = [anchor, scenes.get(state.scene)].find((part) => part?.isConnected && !part.closest("[hidden]"));
    if (now && now === anchor) scrollBy({ top: now.getBoundingClientRect().top - before, behavior: "instant" });
    else scroll(now, "start", true);
  }

  /** @param {boolean} on */
  function setLecture(on) {
    inPlace(() => {
      state.on = on;
      if (on && shown(state.scene) === 0) {
        // What was read up to here is not taken away from the class.
        const read = state.shown.size === 0 ? names.slice(0, names.indexOf(state.scene)) : [];
        for (const name of read) state.shown.set(name, stops(name));
        state.shown.set(state.scene, 1);
      }
      apply();
      keep();
    });
    if (on) bring(face(state.scene, shown(state.scene) - 1));
    const place = `Step ${shown(state.scene)} of ${stops(state.scene)}.`;
    board.say(on ? `Lecture. ${whereabouts(state.scene)} ${place}` : "The whole sheet is shown.");
  }

  /** @param {boolean} on */
  function setPredict(on) {
    inPlace(() => {
      state.predict = on;
      state.answered.clear();
      apply();
      keep();
    });
    board.say(on ? "Questions stand before their answers." : "All answers are shown.");
  }

  /** The look for the wall belongs to the room, not to the page: it is not kept. @param {boolean} on */
  function setWall(on) {
    if (on === wall) return;
    wall = on;
    if (on && root.requestFullscreen) root.requestFullscreen().catch(() => {}); // refused: the look alone serves
    if (!on && document.fullscreenElement === root) document.exitFullscreen().catch(() => {});
    apply();
    const newest = shown(state.scene) > 1 && state.on ? face(state.scene, shown(state.scene) - 1) : undefined;
    scroll(scenes.get(state.scene), "start", true);
    bring(newest, true);
    const welcome = `Full screen, one scene at a time. ${whereabouts(state.scene)} Escape leaves.`;
    board.say(on ? welcome : "The sheet is shown as usual.");
  }

  function startOver() {
    list.close();
    state.shown.clear();
    state.answered.clear();
    if (names[0] !== undefined) toScene(names[0], true);
  }

  function openScenes() {
    if (list.open) return;
    entries.replaceChildren();
    for (const name of names) {
      const item = make("li", "");
      const choose = button(item, title(name), () => {
        list.close();
        toScene(name, true);
      });
      if (name === state.scene) choose.setAttribute("aria-current", "true");
      entries.append(item);
    }
    list.showModal();
    /** @type {HTMLElement | null} */ (entries.querySelector("[aria-current]"))?.focus();
  }

  list.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const buttons = [...entries.querySelectorAll("button")];
    const at = buttons.findIndex((entry) => entry === document.activeElement);
    const digit = /^[1-9]$/.test(event.key) ? buttons[Number(event.key) - 1] : undefined;
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: buttons.length - 1 }[event.key];
    if (digit) digit.click();
    else if (at >= 0 && to !== undefined) buttons[Math.max(0, Math.min(to, buttons.length - 1))].focus();
    else return;
    event.preventDefault();
  });

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && wall && !event.defaultPrevented && !list.open) return setWall(false);
    if (lectureLeavesKey(event)) return;
    /** @type {Record<string, () => void>} */
    const acts = {};
    if (state.on) {
      Object.assign(acts, { ArrowRight: next, PageDown: next, " ": next, ArrowLeft: back, PageUp: back });
      Object.assign(acts, { Home: () => showSteps(1), End: () => showSteps(stops(state.scene)) });
    } else if (wall) Object.assign(acts, { ArrowRight: next, ArrowLeft: back });
    if (state.key) acts.g = openScenes;
    const act = Object.hasOwn(acts, event.key) ? acts[event.key] : undefined;
    if (!act) return;
    event.preventDefault();
    act();
  });

  document.addEventListener("fullscreenchange", () => {
    if (!document.fullscreenElement) setWall(false);
    measure();
  });

  // In reading mode the current scene is the one under the reader's eye.
  for (const kind of ["wheel", "touchmove", "keydown", "pointerdown"]) {
    document.addEventListener(kind, () => (held = false), { passive: true, capture: true });
  }
  let due = false;
  document.addEventListener("scroll", () => {
    if (due || held || state.on || wall) return;
    due = true;
    requestAnimationFrame(() => {
      due = false;
      if (held || state.on || wall) return;
      const bottom = root.scrollHeight - innerHeight;
      const end = bottom > 1 && scrollY >= bottom - 1;
      const passed = names.filter((name) => (scenes.get(name)?.getBoundingClientRect().top ?? 0) <= innerHeight * 0.4);
      state.scene = (end ? names[names.length - 1] : passed[passed.length - 1]) ?? names[0] ?? "";
      showPlace();
    });
  }, { passive: true });

  const sizes = new ResizeObserver(measure);
  sizes.observe(board.bar);
  sizes.observe(pager);

  // A lecture goes on where it was; the page is given back without a word.
  if (state.on && shown(state.scene) === 0) state.shown.set(state.scene, 1);
  apply();
  if (state.on && shown(state.scene) === 1) scroll(scenes.get(state.scene), "start", true);
  else if (state.on) bring(face(state.scene, shown(state.scene) - 1), true);

  // Reading what comes from outside.

  /**
   * Reads what was kept, and takes only what fits the sheet: a page may come back from anyone.
   * @param {unknown} kept
   * @param {Map<string, number>} stops how many stops each scene of the sheet has, by name
   * @returns {LectureState}
   */
  function lectureState(kept, stops) {
    const found = /** @type {Record<string, unknown>} */ (typeof kept === "object" && kept !== null ? kept : {});
    const list = (/** @type {unknown} */ value) => (Array.isArray(value) ? value.slice(0, 10000) : []);
    const known = typeof found.scene === "string" && stops.has(found.scene);
    /** @type {LectureState} */
    const state = {
      on: found.on === true,
      predict: found.predict === true,
      key: found.key !== false,
      scene: known ? String(found.scene) : ([...stops.keys()][0] ?? ""),
      shown: new Map(),
      answered: new Set(),
    };
    for (const pair of list(found.shown)) {
      const [name, count] = list(pair);
      const most = stops.get(name);
      if (most !== undefined && Number.isInteger(count) && count > 0) state.shown.set(name, Math.min(count, most));
    }
    for (const mark of list(found.answered)) {
      if (typeof mark !== "string" || !/^\S+ \d{1,4}$/.test(mark)) continue;
      const [name, place] = mark.split(" ");
      if (Number(place) < (stops.get(name) ?? 0)) state.answered.add(mark);
    }
    return state;
  }

  /**
   * The first words of a step, to be spoken: its heading, or up to twelve words; a formula by its text in words.
   * @param {Element} step
   * @returns {string}
   */
  function lectureWords(step) {
    const heading = step.querySelector("h3, h4, h5, h6");
    /** @type {string[]} */
    const words = [];
    const walk = (/** @type {Node} */ node) => {
      if (node instanceof Element) {
        if (node.matches("script, style, button, details, input, select, textarea, [hidden], [aria-hidden=true]")) return;
        const caption = node.matches("figure") ? node.querySelector("figcaption") : null;
        if (caption) return walk(caption);
        const said = node.getAttribute("aria-label") ?? (node.matches("math") ? node.getAttribute("alttext") : null);
        if (said) return void words.push(...said.trim().split(/\s+/));
        if (node.matches("svg")) return void words.push(...(node.querySelector("title")?.textContent ?? "").split(/\s+/));
        if (node.matches("annotation, annotation-xml")) return;
      }
      if (node.nodeType === Node.TEXT_NODE) words.push(...(node.textContent ?? "").split(/\s+/));
      for (const child of node.childNodes) if (words.length < 100) walk(child);
    };
    walk(heading ?? step);
    const spoken = words.filter((word) => word !== "");
    return spoken.slice(0, 12).join(" ") + (spoken.length > 12 ? " …" : "");
  }

  /**
   * Whether a key belongs to what has the focus: a field, a slider, a list, a button about to be pressed, a part that scrolls.
   * @param {KeyboardEvent} event
   * @returns {boolean}
   */
  function lectureLeavesKey(event) {
    if (event.defaultPrevented || event.isComposing) return true;
    if (event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return true;
    const target = event.composedPath()[0];
    if (!(target instanceof Element)) return false;
    if (target instanceof HTMLElement && target.isContentEditable) return true;
    if (target.closest("input, textarea, select, dialog, audio, video, iframe, embed, object")) return true;
    const roles = ["slider", "spinbutton", "textbox", "searchbox", "combobox", "listbox", "menu", "menubar", "tablist",
      "radiogroup", "grid", "tree", "treegrid", "scrollbar", "application", "dialog", "alertdialog"];
    if (target.closest(roles.map((role) => `[role=${role}]`).join(","))) return true;
    if (event.key === " ") {
      const pressed = ["button", "link", "checkbox", "switch", "radio", "option", "menuitem", "tab"];
      return target.closest(`button, summary, a[href], ${pressed.map((role) => `[role=${role}]`).join(",")}`) !== null;
    }
    const sideways = event.key.startsWith("Arrow");
    for (let part = target; part !== document.body && part.parentElement; part = part.parentElement) {
      const { overflowX, overflowY } = getComputedStyle(part);
      if (sideways && /auto|scroll/.test(overflowX) && part.scrollWidth > part.clientWidth + 1) return true;
      if (!sideways && /auto|scroll/.test(overflowY) && part.scrollHeight > part.clientHeight + 1) return true;
    }
    return false;
  }
}
