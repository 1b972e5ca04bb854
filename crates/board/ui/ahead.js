// Whether papers can still be made from the lesson at rest. The engine looks at the lesson as it is shown while a hand moves
// something; what else its papers may say is looked at here, when the hand rests, and told before anybody saves the lesson.

/**
 * @param {object} board
 * @param {(order: object) => any} ask the engine
 */
function lookAhead(board, ask) {
  /** How long a hand that moves something is waited for, ms. */
  const PATIENCE = 200;
  const caution = document.getElementById("caution");
  const words = caution.querySelector("p");
  const [undo, leave] = ["undo", "leave"].map((name) => document.getElementById(`caution-${name}`));
  /** The look that counts: each other text at rest begins another. */
  let look = 0;
  let looked = null;
  let why = "";
  /** Whether the lecturer has read it and wants it so. */
  let left = false;

  function begin() {
    if (looked === board.rest) return;
    look += 1;
    const own = look;
    let text = looked = board.rest;
    const next = () => {
      if (own !== look) return;
      if (board.moving()) return void setTimeout(later, PATIENCE);
      const reply = ask({ do: "ahead", text });
      text = null;
      if (reply.fault) return void board.answer(reply);
      if (reply.ahead.more) later();
      else found(reply.ahead.why);
    };
    const later = () => (window.requestIdleCallback ?? ((act) => setTimeout(act, 20)))(next);
    later();
  }

  function found(now) {
    const news = now && now !== why;
    if (!now) left = false;
    why = now;
    show();
    if (news && !left) board.say(why, true);
  }

  function show() {
    const hide = !why || left;
    if (hide && caution.contains(document.activeElement)) {
      document.querySelector("#undo:enabled, #redo:enabled, #save").focus({ preventScroll: true });
    }
    words.textContent = why;
    undo.hidden = document.getElementById("undo").disabled;
    caution.hidden = hide;
  }

  /** What is to be said of a lesson that is saved now: its caution comes back, also where it was left. */
  board.saved = (said) => {
    left = false;
    show();
    const words = [said, why].filter(Boolean).join(" ");
    if (words) board.say(words);
  };
  undo.addEventListener("click", () => board.undo());
  leave.addEventListener("click", () => {
    left = true;
    show();
  });
  board.changed(begin);
  begin();
}
