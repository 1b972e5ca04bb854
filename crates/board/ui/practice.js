// A paper to practise with, below the sheet: chosen by a number, answered in units, looked at answer by answer, with hints.
// What is right and what is said is the engine's; this part shows it, and keeps what was typed.

/**
 * @param {{kept: Record<string, unknown>, say: (words: string) => void, touched: () => void}} board
 * @param {(order: object) => any} ask the engine
 */
function practice(board, ask) {
  const place = document.getElementById("practice");
  if (!place) return;
  const choose = document.getElementById("practice-choose");
  const number = choose.querySelector("input");
  const refusal = document.getElementById("practice-refusal");
  const paper = document.getElementById("practice-paper");
  const kept = () => board.kept.practice;

  document.getElementById("practice-go").addEventListener("click", () => {
    place.scrollIntoView({ block: "start" });
    (number.type === "hidden" ? choose.querySelector("button") : number).focus({ preventScroll: true });
  });
  choose.addEventListener("submit", (event) => {
    event.preventDefault();
    // What was typed to another paper would be wrong on this one.
    if (begin(number.value.trim(), [])) {
      const title = document.getElementById("practice-title");
      title.focus({ preventScroll: true });
      title.scrollIntoView({ block: "start" });
      keep();
    }
  });
  paper.addEventListener("submit", (event) => {
    event.preventDefault();
    check(event.target);
  });
  paper.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-hint]");
    if (button) hint(button);
  });
  paper.addEventListener("input", (event) => {
    // What was found was found of another answer.
    const part = event.target.closest("form.part");
    if (part) found(part).replaceChildren();
    keep();
  });

  const found = (part) => part.querySelector(".found");
  const parts = () => [...paper.querySelectorAll("form.part")];
  /** What stands at a part: its text, or the letter of what is chosen. */
  const answer = (part) => {
    const boxes = [...part.querySelectorAll(".choices input")];
    const chosen = boxes.findIndex((box) => box.checked);
    if (boxes.length) return chosen < 0 ? "" : String.fromCharCode(97 + chosen);
    return part.querySelector(".answer input")?.value ?? "";
  };

  function keep() {
    board.kept.practice = { number: paper.dataset.number, typed: parts().map(answer) };
    board.touched();
  }

  /** Shows the paper of a number. @returns {boolean} whether there is one */
  function begin(written, typed) {
    const good = /^[1-9]\d{0,5}$/.test(written);
    const reply = good ? ask({ do: "practise", number: Number(written) }) : null;
    const why = reply?.refused?.first ?? reply?.fault ?? (good ? "" : "The number of a paper is a whole number from 1 to 999999.");
    refusal.textContent = why;
    number.toggleAttribute("aria-invalid", Boolean(why));
    if (why) return false;
    paper.innerHTML = reply.practice.html;
    paper.dataset.number = number.value = written;
    parts().forEach((part, at) => write(part, String(typed[at] ?? "")));
    return true;
  }

  function write(part, text) {
    const boxes = [...part.querySelectorAll(".choices input")];
    if (boxes.length) boxes.forEach((box, at) => { box.checked = text === String.fromCharCode(97 + at); });
    else if (part.querySelector(".answer input")) part.querySelector(".answer input").value = text;
  }

  function check(part) {
    const reply = ask({ do: "check", part: part.dataset.part, typed: parts().map(answer) });
    const told = reply.practice;
    const what = found(part);
    what.innerHTML = told ? told.html : "";
    if (!told) what.textContent = reply.refused?.first ?? reply.fault;
    what.dataset.verdict = told?.verdict ?? "";
  }

  function hint(button) {
    const part = button.closest("form.part");
    const at = Number(button.dataset.hint);
    const reply = ask({ do: "hint", part: part.dataset.part, place: at });
    if (!reply.practice) return;
    const item = document.createElement("li");
    item.tabIndex = -1;
    item.innerHTML = reply.practice.html;
    part.querySelector(".hints").append(item);
    if (reply.practice.more) {
      button.dataset.hint = String(at + 1);
      // The last of them is the solution: who wants to go on alone must be able to stop before it.
      const next = ask({ do: "hint", part: part.dataset.part, place: at + 1 });
      if (next.practice && !next.practice.more) button.firstChild.data = "Show the solution";
      else button.firstChild.data = "Another hint";
    } else {
      button.remove();
    }
    item.focus({ preventScroll: true });
    item.scrollIntoView({ block: "nearest" });
  }

  const before = kept();
  if (typeof before?.number === "string") begin(before.number, Array.isArray(before.typed) ? before.typed : []);
}
