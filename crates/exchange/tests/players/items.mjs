// What a student must get from a player for what is typed: the marks and the words of the item, as its author meant them.
//
// The items and their numbers are those of ../common/mod.rs; what each answer must earn is worked out here by hand.

import assert from "node:assert/strict";
import { test } from "node:test";

const OTHER = "Not right: go through it once more.";

/** One item with one answer: what is typed, what it earns, what is said. */
const single = {
  // -12 MPa within 1 %: -12.12 to -11.88.
  "tau-on-the-cut": [
    ["-12", 2, ["Right."]],
    ["-12.0", 2, ["Right."]],
    ["-12.12", 2, ["Right."]],
    ["-11.88", 2, ["Right."]],
    ["-12.13", 0, [OTHER]],
    ["-11.87", 0, [OTHER]],
    ["12", 1, ["The sign is turned round."]],
    ["-18", 0, ["That is 3V/(2A), for a rectangle."]],
    ["18", 0, [OTHER]],
    ["", 0, []],
    ["abc", 0, [OTHER]],
    ["-12,0", 0, [OTHER]],
  ],
  // 105 mm within 0.5 mm.
  centroid: [
    ["105", 2, ["Right."]],
    ["104.5", 2, ["Right."]],
    ["105.5", 2, ["Right."]],
    ["104.4", 0, [OTHER]],
    ["105.6", 0, [OTHER]],
    ["-105", 0, [OTHER]],
    ["75", 0, ["That is half the depth."]],
    ["", 0, []],
    ["abc", 0, [OTHER]],
  ],
};

/** Four answers, V, Q, t and tau = V Q / (11.25 t): what is typed, what each earns, and what is said of tau. */
const chain = [
  ["all right", ["-12", "108", "20", "-5.76"], [2, 2, 2, 2], "Right."],
  // -10 · 108 / (11.25 · 20) = -4.8; 1 % of it is 0.048.
  ["V wrong, tau follows", ["-10", "108", "20", "-4.8"], [0, 2, 2, 2], "Right from your own earlier values."],
  ["V wrong, tau follows within 1 %", ["-10", "108", "20", "-4.84"], [0, 2, 2, 2], "Right from your own earlier values."],
  ["V wrong, tau just off", ["-10", "108", "20", "-4.86"], [0, 2, 2, 0], OTHER],
  ["V wrong, the sign of tau wrong", ["-10", "108", "20", "4.8"], [0, 2, 2, 0], OTHER],
  // 12 · 54 / (11.25 · 20) = 2.88.
  ["two slips, tau follows and is positive", ["12", "54", "20", "2.88"], [0, 0.5, 2, 2], "Right from your own earlier values."],
  ["a known mistake in tau", ["-12", "108", "20", "11.5"], [2, 2, 2, 0], "Half the thickness was taken."],
  // Without V a product of the others would be 108 / (11.25 · 20) = 0.48.
  ["V left out, tau from the others", ["", "108", "20", "0.48"], [0, 2, 2, 0], OTHER],
  ["V no number", ["abc", "108", "20", "0.48"], [0, 2, 2, 0], OTHER],
  ["V nothing, tau nothing", ["0", "108", "20", "0"], [0, 2, 2, 0], OTHER],
  ["t nothing, so nothing follows", ["-12", "108", "0", "-9"], [2, 2, 0, 0], OTHER],
  ["only tau, and right", ["", "", "", "-5.76"], [0, 0, 0, 2], "Right."],
  ["nothing at all", ["", "", "", ""], [0, 0, 0, 0], null],
  // A difference from what is no number is 0 to one player.
  ["tau no number", ["-12", "108", "20", "abc"], [2, 2, 2, 0], OTHER],
];

const choices = [
  [{ name: "axis", words: "At the neutral axis" }, 1, ["Yes: Q is largest there."]],
  [{ name: "joint", words: "At the joint" }, 0.5, ["Large, but Q grows further down."]],
  [{ name: "top", words: "At the top" }, 0, ["There is nothing beyond the top."]],
  ["", 0, []],
];

/** One test for each case of each item, in one player. */
export function playAll({ name, play, showsFormulae }) {
  for (const [item, cases] of Object.entries(single)) {
    for (const [typed, marks, words] of cases) {
      test(`${name}: ${item}, ${JSON.stringify(typed)} earns ${marks}`, async () => {
        const { outcomes, said, formulae, pictures } = await play(item, typed);
        assert.equal(Number(outcomes.SCORE), marks);
        assert.equal(Number(outcomes.MAXSCORE), 2);
        assert.deepEqual(said, words);
        assert.ok(formulae.length >= 2, `${formulae}`);
        assert.equal(formulae.every(Boolean), showsFormulae);
        assert.deepEqual(pictures, item === "tau-on-the-cut" ? [1] : []);
      });
    }
  }
  test(`${name}: a second attempt stands for itself`, async () => {
    for (const [typed, marks, words] of [["12", 1, ["The sign is turned round."]], ["abc", 0, [OTHER]], ["", 0, []]]) {
      const { outcomes, said } = await play("tau-on-the-cut", "-12", typed);
      assert.equal(Number(outcomes.SCORE), marks, typed);
      assert.deepEqual(said, words, typed);
    }
  });
  for (const [what, typed, marks, words] of chain) {
    test(`${name}: chain, ${what}`, async () => {
      const { outcomes, said } = await play("chain", typed);
      assert.deepEqual(["V", "Q", "t", "tau"].map((answer) => Number(outcomes[`SCORE-${answer}`])), marks);
      assert.equal(Number(outcomes.SCORE), marks.reduce((sum, mark) => sum + mark, 0));
      assert.equal(said.length, typed.filter((answer) => answer !== "").length);
      if (words !== null) assert.ok(said.at(-1).endsWith(words), said.at(-1));
    });
  }
  for (const [chosen, marks, words] of choices) {
    test(`${name}: where, ${chosen.name ?? "nothing"} earns ${marks}`, async () => {
      const { outcomes, said } = await play("where", chosen);
      assert.equal(Number(outcomes.SCORE), marks);
      assert.deepEqual(said, words);
    });
  }
}
