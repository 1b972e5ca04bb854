/** How many drags the engine goes through while nobody wants anything of it. */
const REHEARSALS = 120;

/** Has the browser run what a drag runs, so that the first drag is as smooth as the tenth. Nothing of it shows. */
function rehearse(board, ask) {
  let turn = 0;
  const next = () => {
    ask({ do: "rehearse", turn, seen: board.seen() ?? [] });
    turn += 1;
    if (turn < REHEARSALS) later();
  };
  // Where a browser does not tell when it is idle, a little at a time.
  const later = () => (window.requestIdleCallback ?? ((act) => setTimeout(act, 100)))(next);
  later();
}

// The start: the page is drawn already; from here on it answers.
(async () => {
  const began = performance.now();
  const asMade = document.documentElement.cloneNode(true);
  const made = JSON.parse(document.getElementById("kept").textContent);
  const before = beforeReload(made);
  const ask = await startEngine();
  const board = makeBoard(ask, { ...made, ...before?.kept, name: made.name, served: made.served, text: made.text });
  board.asMade = asMade;
  // The lesson as its file has it; a served board brings it up to date.
  board.made = before?.base ?? made.text;
  grips(board);
  // A page that was saved is drawn as it was first made; its lesson is the one that it keeps.
  board.answer(ask({ do: "open", text: made.text, name: made.name, drawn: !made.saved }));
  const follow = async () => {
    const link = /^#lesson=([\w-]*)$/.exec(location.hash);
    if (!link) return;
    const text = await unpacked(link[1]);
    if (text === null) board.tell("The link is damaged: the lesson of the page is shown instead.");
    else board.replace(text);
  };
  if (!before) await follow();
  else if (before.kept.text !== board.rest && board.replace(before.kept.text)) board.say("The page is as it was before it was loaded again.");
  addEventListener("hashchange", follow);
  lecture(board);
  ink(board);
  practice(board, ask);
  fitToWindow(board);
  keepThroughReload(board);
  lookAhead(board, ask);
  if (made.served) keepInStep(board);
  window.board = board;
  document.documentElement.dataset.ready = String(Math.round(performance.now() - began));
  rehearse(board, ask);
})();
