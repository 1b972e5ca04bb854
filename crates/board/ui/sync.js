// Keeps a served board and its lesson file in step, and loses neither's text: what is replaced can be undone, and
// the file is written over only in the version that has been seen.
//
// `board.text` is the lesson's text now; `board.replace(text)` loads another as one undo step; `board.say(words)`
// tells the user; `board.changed(listener)` calls `listener` after each committed change.
function keepInStep(board) {
  const LOST = Symbol("nobody answers");
  const button = document.getElementById("save");
  const title = document.title;
  // The version of the file that the board's text comes from: its tag (null: no file is there; undefined: not yet
  // asked) and its text.
  let tag;
  let base = board.made;
  // The version of the file that the user has been asked about; the tidings of it ask no second time.
  let asked = null;
  let region = null;
  let lost = false;

  function unsaved() {
    return tag === null || board.text !== base;
  }

  function mark() {
    const now = unsaved();
    document.title = now ? "* " + title : title;
    if (button) {
      button.toggleAttribute("data-unsaved", now);
      // Not `disabled`: a button that has just been pressed would lose the focus.
      button.setAttribute("aria-disabled", String(!now));
    }
  }

  // One thing at a time: a save and the tidings of it must not overtake each other.
  let queue = Promise.resolve();
  function next(work) {
    queue = queue.then(work).catch((error) => {
      if (error === LOST) connectionLost();
      else board.say("A mistake of Glueline\u2019s own, please report it: " + error);
    });
  }

  function request(options) {
    return fetch("lesson", options).catch(() => Promise.reject(LOST));
  }

  async function read() {
    const answer = await request({ cache: "no-store" });
    const bytes = await answer.arrayBuffer().catch(() => Promise.reject(LOST));
    // `ignoreBOM` keeps a byte order mark in the text, so that it is not lost by saving.
    const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
    return { status: answer.status, tag: answer.headers.get("ETag"), text };
  }

  // Looks at the file and takes over its text where nothing of the board's is lost by it.
  async function look() {
    const file = await read();
    asked = null;
    if (file.status === 410) {
      if (tag !== null) {
        tag = null;
        dismiss();
        board.say("The lesson file is no longer there. The board keeps its text; saving makes the file anew.");
      }
    } else if (file.status !== 200) {
      board.say(file.text.trim() + " The board keeps its text.");
    } else if (file.text === board.text || file.text === base) {
      tag = file.tag;
      board.made = base = file.text;
      dismiss();
    } else if (board.text === base) {
      if (take(file)) board.say("The lesson file was changed elsewhere; the board shows it now. Undo brings back what was here.");
      else board.say("The lesson file was changed elsewhere and has a mistake now: the board waits until it is mended.");
    } else {
      asked = file.tag;
      choose(file);
    }
    mark();
    return file.status;
  }

  // A file with a mistake is not taken: the board still stands on the version before, and saving then asks.
  function take(file) {
    dismiss();
    const taken = board.replace(file.text);
    if (taken) {
      tag = file.tag;
      board.made = base = file.text;
    }
    mark();
    return taken;
  }

  async function write() {
    const text = board.text;
    const bytes = new TextEncoder().encode(text);
    if (bytes.length > LONGEST) {
      board.say("Not saved: a lesson of more than 4 MB.");
      return;
    }
    if (tag === undefined) {
      await look();
      if (tag === undefined) return;
    }
    if (!unsaved()) {
      board.say("Saved already.");
      return;
    }
    const condition = tag === null ? { "If-None-Match": "*" } : { "If-Match": tag };
    // No `mode`: in any other than the usual one the browser would not name the page's origin.
    const answer = await request({ method: "PUT", headers: condition, body: bytes });
    if (answer.ok) {
      tag = answer.headers.get("ETag");
      board.made = base = text;
      board.touched();
      dismiss();
      board.saved("Saved.");
    } else if (answer.status === 412) {
      const status = await look();
      // The file has become what the board comes from once more: then nothing stands against saving.
      if (status === 200 && !region && unsaved()) board.say("Not saved: the lesson file has changed just now. Save once more.");
    } else {
      board.say((await answer.text()).trim() || "Not saved: Glueline refused it.");
    }
    mark();
  }

  function save() {
    // A field that is being typed in hands over its value only when it is left.
    const field = document.activeElement;
    if (field && field.matches("input, textarea, select")) {
      field.blur();
      field.focus();
    }
    next(write);
  }

  function choose(file) {
    const words =
      "The lesson file was changed elsewhere, and the board has changes that are not saved. " +
      "Whichever you choose, Undo brings the other back.";
    ask("Two versions of the lesson", words, [
      ["Take the file\u2019s", () => next(async () => take(file))],
      [
        "Keep the board\u2019s and write over the file",
        () =>
          next(async () => {
            const ours = board.text;
            tag = file.tag;
            board.made = base = file.text;
            // By way of the file's text, so that it is one step back.
            board.replace(file.text);
            board.replace(ours);
            await write();
          }),
      ],
    ]);
  }

  function connectionLost() {
    lost = true;
    mark();
    if (!unsaved()) {
      board.say("Glueline no longer serves this board. Changes made from now on cannot be saved to the file.");
      return;
    }
    ask(
      "Not saved",
      "Glueline no longer serves this board. Your changes are here still: keep a copy before you close the page.",
      [["Keep a copy among the downloads", keepCopy]],
    );
  }

  function connectionBack() {
    if (!lost) return;
    lost = false;
    dismiss();
    board.say("Glueline serves this board again.");
  }

  function keepCopy() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([board.text], { type: "text/plain" }));
    link.download = "lesson-copy.toml";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  // A question beside the board, which can be worked on meanwhile. Escape leaves it open for later: saving asks anew.
  function ask(heading, words, choices) {
    dismiss();
    const before = document.activeElement;
    region = document.createElement("section");
    region.id = "versions";
    region.tabIndex = -1;
    region.setAttribute("role", "alertdialog");
    region.setAttribute("aria-labelledby", "versions-heading");
    region.setAttribute("aria-describedby", "versions-words");
    const first = document.createElement("h2");
    first.id = "versions-heading";
    first.textContent = heading;
    const second = document.createElement("p");
    second.id = "versions-words";
    second.textContent = words;
    region.append(first, second);
    for (const [label, work] of choices) {
      const choice = document.createElement("button");
      choice.type = "button";
      choice.textContent = label;
      choice.addEventListener("click", () => {
        dismiss();
        work();
      });
      region.append(choice);
    }
    region.addEventListener("keydown", (event) => {
      if (event.key === "Escape") {
        event.stopPropagation();
        dismiss();
      }
    });
    region.giveBack = before;
    document.body.prepend(region);
    board.say(heading + ". " + words);
    // The region and not a button, so that a key on its way chooses nothing; and never out of a field in use.
    if (!before || !before.matches("input, textarea, select, [contenteditable]")) region.focus();
  }

  function dismiss() {
    if (!region) return;
    const had = region.contains(document.activeElement);
    const before = region.giveBack;
    region.remove();
    region = null;
    if (had && before && before.isConnected) before.focus();
  }

  function listen() {
    const tidings = new EventSource("changes");
    tidings.addEventListener("open", connectionBack);
    tidings.addEventListener("changed", (event) => {
      next(async () => {
        if (event.data !== tag && event.data !== asked) await look();
      });
    });
    tidings.addEventListener("gone", () => next(look));
    // The browser tries again by itself and is then told the version of that moment; a short break is no matter.
    let patience = null;
    tidings.addEventListener("error", () => {
      if (patience === null && !lost) patience = setTimeout(connectionLost, 5000);
    });
    tidings.addEventListener("open", () => {
      clearTimeout(patience);
      patience = null;
    });
  }

  if (button) button.addEventListener("click", save);
  document.addEventListener("keydown", (event) => {
    const command = (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;
    if (command && event.key.toLowerCase() === "s") {
      event.preventDefault();
      if (!event.repeat) save();
    }
  });
  addEventListener("beforeunload", (event) => {
    if (unsaved()) event.preventDefault();
  });
  board.changed(mark);
  mark();
  listen();
}
