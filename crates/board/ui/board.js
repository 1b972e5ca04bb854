// The board: one text, its undo, and the elements of the sheet that follow it.

/** The longest lesson that is taken from a link or saved to a file, in bytes. */
const LONGEST = 4 * 1024 * 1024;

/**
 * @param {(order: object) => any} ask the engine
 * @param {{name: string, text: string, served: boolean}} kept what the page was saved with
 */
function makeBoard(ask, kept) {
  const byId = (id) => document.getElementById(id);
  const sheet = byId("sheet");
  const message = byId("message");
  const changed = [];
  const applied = [];
  let past = [];
  let future = [];
  let elements = new Map();
  const inBlocks = new WeakMap();
  let inputs = new Map();
  let saying = 0;
  let pending = "";
  let touching = 0;
  /** Whether something is being moved, and the sheets of the drawings by their ids: as drawn, and as they are shown. */
  let moving = false;
  let sheets = new Map();
  /** Whether the drawings are drawn for a narrow window. */
  let narrow = false;

  // Told by the browser when it has laid out the page anyway: to ask for it at each step of a drag would cost a layout.
  let inView = null;
  let watched = new WeakSet();
  const watcher = new IntersectionObserver((entries) => {
    inView ??= new Set();
    for (const { target, isIntersecting } of entries) inView[isIntersecting ? "add" : "delete"](target);
  }, { rootMargin: "50px" });

  const board = {
    sheet, kept, bar: byId("bar"),
    text: kept.text,
    /** The text at rest: what undo goes back to while something is dragged. */
    rest: kept.text,

    /** Tells the user something, once, politely; `too`: after what is about to be said, not in its place. */
    say(words, too = false) {
      clearTimeout(saying);
      pending = too && pending ? `${pending}. ${words}` : words;
      saying = setTimeout(() => {
        byId("said").textContent = pending;
        pending = "";
      }, 250);
    },
    /** Shows a message that stays until the next good change; one with places of the file in lines of even width. */
    tell(words, places = false) {
      message.textContent = words;
      message.toggleAttribute("data-places", places);
      message.hidden = !words;
    },
    changed(listener) { changed.push(listener); },
    /** `listener(done, focused)` follows each change of the page; `focused` had the focus before it. */
    applied(listener) { applied.push(listener); },

    /** The names of the drawings, pieces and blocks (`piece/3`) that can be seen now; null, for all, where that is not known. */
    seen() {
      if (!inView) return null;
      const names = [];
      const blocks = new Map();
      for (const element of inView) {
        const piece = element.closest(".piece");
        if (!element.isConnected) inView.delete(element);
        else if (element === piece) names.push(piece.id.replace(/^drawing-/, ""));
        else {
          if (!blocks.has(piece)) blocks.set(piece, blocksOf(piece));
          names.push(`${piece.id}/${blocks.get(piece).indexOf(element)}`);
        }
      }
      return names;
    },
    /** Drags what can be dragged to a value: only what is seen follows. */
    drag(piece, grip, value, snap) {
      // What the hand is on follows in any case: the browser may not have told yet that it has come into view.
      const seen = board.seen();
      seen?.push(piece.replace(/^drawing-/, ""));
      moving = true;
      return board.answer(ask({ do: "drag", piece, grip, value, snap, seen }));
    },
    /** Gives up a drag: everything goes back to the text at rest. */
    release() {
      if (board.text !== board.rest || moving) settleOn(board.rest);
      else board.tell("");
    },
    /** Gives one value another wording for good, as one step of undo. */
    set(path, value) {
      moving = false;
      return board.answer(ask({ do: "set", path, value, seen: null })) && keep();
    },
    /** Ends a drag: everything follows, and the step can be undone. */
    commit() {
      return settleOn(board.text) && keep();
    },
    /** Takes another text as one step of undo. */
    replace(text) {
      moving = false;
      const reply = ask({ do: "take", text, seen: null });
      const good = board.answer(reply);
      // A whole text has mistakes somewhere: here it is told where.
      if (reply.refused) board.tell(reply.refused.findings.join("\n"), true);
      return good && keep();
    },
    /** Draws for a narrow window, or for a usual one. */
    fit(now) {
      if (now === narrow) return;
      narrow = now;
      moving = false;
      const reply = ask({ do: "fit", narrow });
      if (reply.done) apply(reply.done);
    },
    /** Has the elastic truth told from now on. */
    truth() {
      moving = false;
      if (!board.answer(ask({ do: "truth" }))) return;
      // The button is gone; who pressed it goes on reading where it stood.
      const place = byId("elastic");
      place.tabIndex = -1;
      place.focus({ preventScroll: true });
      board.say("The elastic truth stands here now.");
    },
    /** Whether something is being moved. */
    moving: () => moving,
    undo() { step(past, future); },
    redo() { step(future, past); },

    /** Carries an answer of the engine to the page. @returns {boolean} whether it was a good one */
    answer(reply) {
      if (reply.fault) {
        const again = ask({ do: "open", text: board.rest, name: kept.name, drawn: false });
        if (again.done) apply(again.done);
        if (narrow) {
          narrow = false;
          board.fit(true);
        }
        board.tell("Glueline made a mistake of its own; nothing is lost. " + reply.fault);
        return false;
      }
      if (reply.refused) {
        board.tell(reply.refused.first);
        return false;
      }
      apply(reply.done);
      board.tell("");
      return true;
    },
    /** Something that is kept beside the lesson has changed. */
    touched() {
      clearTimeout(touching);
      touching = setTimeout(() => changed.forEach((listener) => listener()), 200);
    },
  };

  /** Makes what is shown a step of undo. */
  function keep() {
    if (board.text === board.rest) return true;
    past.push(board.rest);
    future = [];
    settle();
    return true;
  }

  function step(from, to) {
    // What is still in motion is a step of its own.
    if (board.text !== board.rest) board.commit();
    const text = from.pop();
    if (text === undefined) return;
    to.push(board.rest);
    settleOn(text);
    settle();
  }

  /** Shows a text at rest. @returns {boolean} whether it is a good one */
  function settleOn(text) {
    moving = false;
    return board.answer(ask({ do: "take", text, seen: null }));
  }

  function settle() {
    board.rest = board.text;
    byId("undo").disabled = past.length === 0;
    byId("redo").disabled = future.length === 0;
    changed.forEach((listener) => listener());
  }

  /** The elements of a drawing in the order in which the engine counts them. */
  function elementsOf(id) {
    let list = elements.get(id);
    if (!list) {
      list = byId(id)?.querySelectorAll("svg, svg :not(tspan)") ?? [];
      elements.set(id, list);
    }
    return list;
  }

  /** The blocks of a piece in the order in which the engine counts them: what was written between them is none. */
  function blocksOf(piece) {
    return [...piece.children].filter((block) => !block.matches(".room"));
  }

  /** Watches whether a piece is seen; of a list of results, each of its lines. */
  function watch(piece) {
    const all = piece.matches("[id^=results-]") ? blocksOf(piece) : [piece];
    for (const element of all.filter((element) => !watched.has(element))) {
      watched.add(element);
      watcher.observe(element);
      // Until the browser has told, what is new counts as seen.
      inView?.add(element);
    }
  }

  /** A block and the elements in it, in the order in which the engine counts them. */
  function within(block) {
    let list = inBlocks.get(block);
    if (!list) inBlocks.set(block, list = [block, ...block.querySelectorAll("*")]);
    return list;
  }

  /** Carries out changes of elements. @returns {boolean} whether there are other elements now than those that were counted */
  function change(list, changes) {
    let others = false;
    for (const [place, what, value] of changes) {
      const element = list[place];
      if (!element) continue;
      if (value !== undefined) element.setAttribute(what, value);
      else if (what.includes("<") || what.includes("&")) element.innerHTML = what;
      else if (element.firstChild?.nodeType === Node.TEXT_NODE && !element.firstChild.nextSibling) element.firstChild.data = what;
      else element.textContent = what;
      others ||= value === undefined && element.localName === "g";
    }
    return others;
  }

  /** Exchanges runs of blocks, each told by its place among the old ones. */
  function splice(piece, blocks, splices) {
    for (const [from, removed, html] of splices) {
      const next = blocks[from];
      if (next) next.insertAdjacentHTML("beforebegin", html);
      else piece.insertAdjacentHTML("beforeend", html);
      for (const block of blocks.slice(from, from + removed)) {
        watcher.unobserve(block);
        // The end of its line goes with it, or each step of a drag would leave one behind.
        if (block.nextSibling?.nodeType === Node.TEXT_NODE) block.nextSibling.remove();
        block.remove();
      }
    }
    watch(piece);
  }

  const drawingOf = (id) => byId(id)?.querySelector(":scope > svg:not(.ink)");
  const sheetOf = (svg) => svg.getAttribute("viewBox").split(" ").map(Number);

  /**
   * Gives drawings the sheets that they are shown on. While something is moved none loses room that it had: the drawings
   * would hop about under the hand, each time that a label finds its place in another row. At rest each is as it is drawn.
   * @param {string[]} told the drawings whose sheets may be others now
   * @returns {string[]} those that are shown on other sheets now
   */
  function lay(told) {
    for (const id of told) {
      const svg = drawingOf(id);
      if (svg) sheets.set(id, { shown: sheetOf(svg), ...sheets.get(id), drawn: sheetOf(svg) });
    }
    const others = [];
    for (const id of moving ? told : sheets.keys()) {
      const [svg, sheet] = [drawingOf(id), sheets.get(id)];
      if (!svg || !sheet) continue;
      const shown = moving ? jointSheet(sheet.shown, sheet.drawn) : sheet.drawn;
      if (String(shown) !== String(sheet.shown)) others.push(id);
      byId(id).style.setProperty("--sheet", `${shown[2]}px`);
      sheet.shown = shown;
      if (svg.getAttribute("viewBox") === shown.join(" ")) continue;
      svg.setAttribute("viewBox", shown.join(" "));
      svg.setAttribute("width", shown[2]);
      svg.setAttribute("height", shown[3]);
    }
    return others;
  }

  /** Looks what there is on a sheet that is new. */
  function begin() {
    elements = new Map();
    inputs = new Map([...sheet.querySelectorAll("input[data-path]")].map((input) => [input.dataset.path, input]));
    inView = null;
    watched = new WeakSet();
    watcher.disconnect();
    sheet.querySelectorAll(".piece").forEach(watch);
    sheets = new Map();
    lay([...sheet.querySelectorAll("[id^=drawing-]")].map((piece) => piece.id));
  }

  function apply(done) {
    board.text = done.text;
    const focused = document.activeElement;
    if (done.sheet !== null) {
      sheet.innerHTML = done.sheet;
      begin();
    }
    for (const [id, inside] of done.pieces) {
      elements.delete(id);
      const place = byId(id);
      if (!place) continue;
      place.innerHTML = inside;
      if (place.matches(".piece")) watch(place);
    }
    for (const [id, { reworded, exchanged }] of done.blocks) {
      const piece = byId(id);
      if (!piece) continue;
      const blocks = blocksOf(piece);
      for (const [place, changes] of reworded) if (blocks[place]) change(within(blocks[place]), changes);
      if (exchanged.length) splice(piece, blocks, exchanged);
    }
    for (const [id, changes] of done.drawings) if (change(elementsOf(id), changes)) elements.delete(id);
    const told = done.drawings.filter(([, changes]) => changes.some(([place, what]) => place === 0 && what === "viewBox"));
    done.laid = lay([...done.pieces, ...told].map(([id]) => id).filter((id) => id.startsWith("drawing-")));
    for (const field of done.fields) {
      const input = inputs.get(field.path);
      if (!input) continue;
      // Where somebody types it waits until they are done.
      if (input === document.activeElement) input.dataset.written = field.written;
      else input.value = field.written;
    }
    if (byId("title").textContent !== done.title) byId("title").textContent = document.title = done.title;
    applied.forEach((listener) => listener(done, focused));
  }

  begin();
  fields(board);
  tools(board);
  return board;
}

/** The least sheet that holds two, each as x, y, width, height. */
function jointSheet([x, y, width, height], [u, v, breadth, depth]) {
  const [left, top] = [Math.min(x, u), Math.min(y, v)];
  return [left, top, Math.max(x + width, u + breadth) - left, Math.max(y + height, v + depth) - top];
}

/** Values that are typed: taken on Enter and when the field is left; Escape brings the old one back. */
function fields(board) {
  const take = (input) => {
    if (input.value === input.defaultValue && !input.hasAttribute("aria-invalid")) return;
    const before = board.text;
    if (board.set(input.dataset.path, input.value)) {
      input.removeAttribute("aria-invalid");
      input.defaultValue = input.value;
      if (board.text !== before) board.say(`${input.labels[0].textContent.trim()}: ${input.value}`);
    } else {
      input.setAttribute("aria-invalid", "true");
      input.setAttribute("aria-describedby", "message");
      board.say(document.getElementById("message").textContent);
    }
  };
  board.sheet.addEventListener("keydown", (event) => {
    const input = event.target;
    if (!input.matches?.("input[data-path]")) return;
    if (event.key === "Enter") take(input);
    if (event.key === "Escape") {
      input.value = input.defaultValue;
      input.removeAttribute("aria-invalid");
      board.tell("");
    }
  });
  board.sheet.addEventListener("focusin", (event) => {
    if (event.target.matches?.("input[data-path]")) event.target.defaultValue = event.target.value;
  });
  board.sheet.addEventListener("focusout", (event) => {
    const input = event.target;
    if (!input.matches?.("input[data-path]")) return;
    const { written } = input.dataset;
    delete input.dataset.written;
    if (written !== undefined && input.value === input.defaultValue) input.value = written;
    else take(input);
  });
}

/** Undo, redo, saving, links, light and dark, drawings taken out. */
function tools(board) {
  const on = (id, act) => document.getElementById(id).addEventListener("click", act);
  on("undo", () => board.undo());
  on("redo", () => board.redo());
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.target.matches?.("input, textarea")) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) { board.undo(); event.preventDefault(); }
    if (key === "y" || (key === "z" && event.shiftKey)) { board.redo(); event.preventDefault(); }
  });
  const stem = () => board.kept.name.replace(/\.toml$/, "") || "lesson";
  if (!board.kept.served) on("save", () => {
    give(`${stem()}.toml`, "application/toml", board.rest);
    board.saved("");
  });
  on("keep", () => give(`${stem()}.html`, "text/html", savedPage(board)));
  on("link", async () => {
    const link = location.href.replace(/#.*/, "") + "#lesson=" + await packed(board.rest);
    try {
      await navigator.clipboard.writeText(link);
      board.tell("");
      board.say("The link is copied.");
    } catch {
      location.hash = "lesson=" + await packed(board.rest);
      board.tell("The link stands in the address line: copy it from there.");
    }
  });
  on("print", () => print());
  board.sheet.addEventListener("click", (event) => event.target.closest("[data-truth]") && board.truth());
  const dark = (on) => {
    document.documentElement.dataset.board = on ? "dark" : "light";
    document.getElementById("dark").setAttribute("aria-pressed", String(on));
  };
  dark(board.kept.dark ?? matchMedia("(prefers-color-scheme: dark)").matches);
  on("dark", () => {
    board.kept.dark = document.documentElement.dataset.board !== "dark";
    dark(board.kept.dark);
    board.touched();
  });
  board.sheet.addEventListener("click", (event) => {
    const button = event.target.closest?.("button[data-take]");
    if (button) takeOut(button.closest("figure"), button.dataset.take);
  });
}

/** Offers a file to be kept. */
function give(name, type, content) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content instanceof Blob ? content : new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A drawing as a file of its own. */
async function takeOut(figure, form) {
  const svg = figure.querySelector(".piece svg").cloneNode(true);
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  // What the page says once for all drawings, a file says of itself.
  svg.setAttribute("font-family", getComputedStyle(figure).fontFamily);
  svg.setAttribute("stroke-linejoin", "round");
  const name = figure.dataset.drawing;
  const text = new XMLSerializer().serializeToString(svg);
  if (form === "svg") return give(`${name}.svg`, "image/svg+xml", text);
  const picture = new Image();
  picture.src = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(text);
  await picture.decode();
  // Three dots to a px: sharp on paper at the size at which it is drawn.
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [picture.width * 3, picture.height * 3];
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#ffffff";
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  canvas.toBlob((blob) => give(`${name}.png`, "image/png", blob));
}

/** Text short enough for a link: packed, and in the alphabet of addresses. */
async function packed(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let signs = "";
  for (const byte of bytes) signs += String.fromCharCode(byte);
  return btoa(signs).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** The text of a link. A link that was cut or made up gives nothing, and one that would swell is cut off. */
async function unpacked(coded) {
  try {
    const bytes = Uint8Array.from(atob(coded.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));
    const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
    const writer = new TextDecoder("utf-8", { fatal: true });
    let text = "";
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return text + writer.decode();
      text += writer.decode(value, { stream: true });
      if (text.length > LONGEST) return null;
    }
  } catch {
    return null;
  }
}
