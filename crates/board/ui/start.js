// The start: the page is drawn already; from here on it answers.

const pageAsMade = {
  sheet: document.getElementById("sheet").innerHTML,
  bar: document.getElementById("bar").outerHTML,
};

(async () => {
  const began = performance.now();
  const kept = JSON.parse(document.getElementById("kept").textContent);
  const ask = await startEngine();
  const board = makeBoard(ask, kept);
  if (kept.served) keepInStep(board);
  // A page that was saved is drawn as it was made; its lesson is the one that it keeps.
  const first = ask({ do: "open", text: kept.text, name: kept.name, drawn: false });
  board.answer(first);
  const link = /^#lesson=([\w-]+)$/.exec(location.hash);
  if (link) {
    const text = await unpacked(link[1]);
    if (text === null) board.tell("The link is damaged: the lesson of the page is shown instead.");
    else board.replace(text);
  }
  window.board = board;
  document.documentElement.dataset.ready = String(Math.round(performance.now() - began));
})();
