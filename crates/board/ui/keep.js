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

/** What this tab had before it was loaded again. @returns {object | null} what was kept, with its text */
function beforeReload(made) {
  try {
    const before = JSON.parse(sessionStorage.getItem(nameOfTab()) ?? "null");
    if (typeof before?.made !== "string" || typeof before.kept?.text !== "string") return null;
    if (before.made === made.text) return before.kept;
    // A served file that was changed meanwhile is shown as it is now, unless changes would be lost by it.
    const text = before.kept.text === before.made ? made.text : before.kept.text;
    return made.served ? { ...before.kept, text } : null;
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
