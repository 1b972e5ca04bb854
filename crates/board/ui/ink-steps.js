// The ink of the sheet and its steps: each change is one that can be undone, and is kept with the page.

/**
 * @param {Board} board
 * @param {() => void} show draws what the steps now hold
 */
function inkSteps(board, show) {
  const { LIMIT, bytesOfAll, restored } = inkStrokes;
  const MOST = 200;
  /** @type {Kept} */
  let now = { version: 1, scenes: {} };
  /** @type {Kept[]} */
  let past = [];
  /** @type {Kept[]} */
  let future = [];

  const steps = {
    /** @param {string} id @returns {Scene} */
    scene: (id) => now.scenes[id] ?? { strokes: [], rooms: [] },
    scenes: () => Object.entries(now.scenes),
    canUndo: () => past.length > 0,
    canRedo: () => future.length > 0,

    /** Makes `changed` the ink of these scenes, as one step. @param {Record<string, Scene>} changed @returns {boolean} */
    take(changed) {
      /** @type {Kept} */
      const next = { version: 1, scenes: { ...now.scenes, ...changed } };
      for (const id in changed) {
        if (!changed[id].strokes.length && !changed[id].rooms.length) delete next.scenes[id];
      }
      const bytes = bytesOfAll(next);
      if (bytes > LIMIT.bytes && bytes > bytesOfAll(now)) {
        board.say("No more ink fits on this board. Erase some to write on.");
        show();
        return false;
      }
      past.push(now);
      if (past.length > MOST) past.shift();
      future = [];
      settle(next);
      return true;
    },
    undo: () => walk(past, future, "Last ink step undone.", "No ink step to undo."),
    redo: () => walk(future, past, "Ink step redone.", "No ink step to redo."),

    /** Begins with what the page kept. What cannot be read is laid aside as it is and saved along, so that nothing is
     * lost to a mistake of ours or to a newer page; it is told once, for afterwards only what was sound is in use. */
    begin() {
      const { sound, refused } = restored(board.kept.ink);
      if (refused) {
        const aside = Array.isArray(board.kept.inkAside) ? board.kept.inkAside : [];
        board.kept.inkAside = [...aside, board.kept.ink];
      }
      now = sound;
      board.kept.ink = now;
      show();
      if (!refused) return;
      const words = `${refused} part${refused === 1 ? "" : "s"} of the kept ink could not be read and ` +
        `${refused === 1 ? "was" : "were"} left out. The page keeps what it had, untouched.`;
      board.tell(words);
      board.say(words);
    },
  };

  /** @param {Kept} next */
  function settle(next) {
    now = next;
    board.kept.ink = now;
    show();
    board.touched();
  }
  /** @param {Kept[]} from @param {Kept[]} to @param {string} done @param {string} none */
  function walk(from, to, done, none) {
    const next = from.pop();
    if (!next) return board.say(none);
    to.push(now);
    settle(next);
    board.say(done);
  }
  return steps;
}
