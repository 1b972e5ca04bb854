// What outlives the moment: the page as a file with everything in it, and a reload that loses nothing.

/** The page as it was made, with the lesson and what is kept of now. */
function savedPage(board) {
  const copy = board.asMade.cloneNode(true);
  copy.querySelector("#kept").textContent =
    JSON.stringify({ ...board.kept, text: board.rest, served: false, saved: true }).replaceAll("<", "\\u003c");
  copy.querySelector("#save").textContent = "Save the lesson";
  return "<!doctype html>\n" + copy.outerHTML;
}

// A tab remembers its page through a reload; another lesson, or another link, begins afresh.
const nameOfTab = () => `glueline ${location.pathname}${location.hash}`;

/**
 * What this tab had before it was loaded again.
 * @returns {{kept: object, base: string} | null} what was kept, and the text of the file that its lesson comes from
 */
function beforeReload(made) {
  try {
    const { made: base, kept } = JSON.parse(sessionStorage.getItem(nameOfTab()) ?? "null") ?? {};
    if (typeof base !== "string" || typeof kept?.text !== "string") return null;
    if (base === made.text) return { kept, base };
    if (!made.served) return null;
    // A served file that was changed meanwhile is shown as it is now, unless changes would be lost by it: then the board
    // still stands on the version before, and asks.
    const own = kept.text !== base && kept.text !== made.text;
    return own ? { kept, base } : { kept: { ...kept, text: made.text }, base: made.text };
  } catch {
    return null; // nothing is kept for such a page, or it is damaged: it begins as it was made
  }
}

/** Keeps everything through a reload from now on. */
function keepThroughReload(board) {
  board.changed(() => {
    try {
      sessionStorage.setItem(nameOfTab(), JSON.stringify({ made: board.made, kept: { ...board.kept, text: board.rest } }));
    } catch {
      // Too much, or not allowed: the page is then kept only by saving it.
    }
  });
}
