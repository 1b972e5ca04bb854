// Each drag of the real page, with the mouse and with the keyboard.
//
// Expected numbers are closed form, from the statics of a beam on two supports and from the sections' rectangles, written
// out here anew; in the lessons' units.

import assert from "node:assert/strict";
import { test } from "node:test";
import { button, centre, field, frame, handle, lessonText, near, onPage, over, pull, textOf, value } from "./real-page.mjs";

const [pound, foot, inch] = [4.4482216152605, 0.3048, 0.0254];

/** Area, centroid and second moment of rectangles [width, bottom, top], and the first moment above a height. */
function section(all) {
  const area = all.reduce((sum, [b, from, to]) => sum + b * (to - from), 0);
  const centroid = all.reduce((sum, [b, from, to]) => sum + (b * (to ** 2 - from ** 2)) / 2, 0) / area;
  const second = all.reduce((sum, [b, from, to]) => sum + (b * ((to - centroid) ** 3 - (from - centroid) ** 3)) / 3, 0);
  const first = (cut) =>
    all.reduce((sum, [b, from, to]) => {
      const low = Math.max(from, cut);
      return to <= low ? sum : sum + (b * ((to - centroid) ** 2 - (low - centroid) ** 2)) / 2;
    }, 0);
  return { area, centroid, second, first };
}
/** The porch beam: a post of 2 kip 5 ft along, a deck of 160 lb/ft, 12 ft 6 in long. */
function porch({ force = 2000, at = 5, deck = 160, from = 0, to = 12.5, station = 2.5 }) {
  const load = deck * (to - from);
  const left = (force * (12.5 - at) + load * (12.5 - (from + to) / 2)) / 12.5;
  const carried = Math.max(0, Math.min(station, to) - from);
  return { left: left * pound, shear: (left - deck * carried - (at < station ? force : 0)) * pound };
}
const planks = (b, h) => section([[4 * inch, 0, 2.5 * inch], [2.5 * inch, 2.5 * inch, 12.5 * inch], [b, 12.5 * inch, 12.5 * inch + h]]);
/** The hoist rail: 12.5 kN at 2 m, 5 kN at 5 m, supports at 0 and 4 m; a T of 90 x 40 mm on 15 x 160 mm. */
const hoist = (p, x, support) => (p * (support - x) - 5000 * (5 - support)) / support;

// Lesson, drawing, handle, px to the right and downwards, the field that follows, and what the sheet must then say of the
// handle's value v (SI).
const drags = [
  ["overhang", "beam-given", "position of the slice", 30, 0, "slice.at", { "bending moment at the slice": (v) => 5000 * v }],
  ["overhang", "diagrams", "position of the slice", 30, 0, "slice.at", { "bending moment at the slice": (v) => 5000 * v }],
  ["overhang", "slice", "length of the slice", 20, 0, "slice.length", { "length of the slice": (v) => v }],
  ["overhang", "section", "place of the cut", 0, 30, "cut.at", { "first moment at the cut": (v) => section([[0.015, 0, 0.16], [0.09, 0.16, 0.2]]).first(v) }],
  ["overhang", "depth", "place of the cut", 0, 30, "cut.at", { "first moment at the cut": (v) => section([[0.015, 0, 0.16], [0.09, 0.16, 0.2]]).first(v) }],
  ["overhang", "beam-given", "load 1: place", 40, 0, "beam.loads[0].at", { "reaction at A": (v) => hoist(12500, v, 4) }],
  ["overhang", "beam-given", "load 1: force = P_1", 0, 20, "values.P_1", { "reaction at A": (v) => hoist(v, 2, 4) }],
  ["overhang", "beam-given", "B: place of the roller", -50, 0, "beam.supports[1].roller", { "reaction at A": (v) => hoist(12500, 2, v) }],
  ["overhang", "section", "flange thickness", 0, 15, "section.flange-thickness",
    { "second moment": (v) => section([[0.015, 0, 0.2 - v], [0.09, 0.2 - v, 0.2]]).second }],
  ["overhang", "section", "web thickness", 15, 0, "section.web-thickness",
    { "second moment": (v) => section([[v, 0, 0.16], [0.09, 0.16, 0.2]]).second }],
  ["porch-beam", "beam-given", "load 2: beginning", 40, 0, "beam.loads[1].from", { "reaction at A": (v) => porch({ from: v / foot }).left }],
  ["porch-beam", "beam-given", "load 2: end", -60, 0, "beam.loads[1].to", { "reaction at A": (v) => porch({ to: v / foot }).left }],
  ["porch-beam", "beam-given", "load 2: intensity = w", 0, -12, "values.w", { "reaction at A": (v) => porch({ deck: (v * foot) / pound }).left }],
  ["porch-beam", "section", "top plank: width", 25, 0, "section.parts[2].width", { "second moment": (v) => planks(v, 2.5 * inch).second }],
  ["porch-beam", "section", "top plank: height", 0, -20, "section.parts[2].height", { "second moment": (v) => planks(4 * inch, v).second }],
  ["box-girder", "section", "left web: height", 0, -15, "section.parts[1].height", {}],
  ["lighting-bridge", "beam-given", "boom: couple", 0, -15, "beam.loads[4].couple", {}],
  ["lighting-bridge", "beam-given", "curtain: intensity at its end", 0, -12, "beam.loads[6].becoming", {}],
];
const now = async (part) => Number(await part.getAttribute("aria-valuenow"));
/** Waits until a run of keys has become a step of undo. */
const settled = (page) => page.waitForFunction(() => board.text === board.rest, null, { timeout: 3000 });

for (const [lesson, drawing, name, right, down, path, wanted] of drags) {
  test(`${lesson}: ${name} on the drawing ${drawing}, by mouse and by key`, () =>
    onPage({ lesson }, async (page) => {
      const before = lessonText(lesson);
      const part = handle(page, drawing, name);
      const svg = () => page.evaluate((id) => document.querySelector(`#${id} > svg`).outerHTML, `drawing-${drawing}`);
      const agree = async (what) => {
        const v = await now(part);
        for (const [value_, of] of Object.entries(wanted)) near(await value(page, value_), of(v), `${what}: ${value_} at ${v}:`);
      };
      const [drawn, first, written] = [await svg(), await now(part), await field(page, path).inputValue()];
      await agree("at first");
      const [x, y] = await centre(part);
      await pull(page, part, right, down);
      assert.notEqual(await svg(), drawn, "the drawing follows while it is dragged");
      assert.notEqual(await now(part), first);
      assert.equal(await page.evaluate(() => board.rest), before, "nothing is for good yet");
      assert.ok((await over(page)) <= 0);
      await page.mouse.up();
      await frame(page);
      const after = await textOf(page);
      assert.notEqual(after, before);
      assert.equal(await page.evaluate(() => board.rest), after);
      const typed = await field(page, path).inputValue();
      assert.notEqual(typed, written, "the field follows");
      assert.ok(after.includes(`"${typed}"`), `${typed} stands in the lesson`);
      await agree("dragged");
      const comments = (text) => text.split("\n").map((line) => /#.*$/.exec(line)?.[0]).filter(Boolean);
      assert.deepEqual(comments(after), comments(before), "comments stay");
      await button(page, "Undo").click();
      assert.equal(await textOf(page), before);
      assert.equal(await field(page, path).inputValue(), written);
      await agree("undone");
      await button(page, "Redo").click();
      assert.equal(await textOf(page), after);
      await button(page, "Undo").click();
      assert.ok(x > 0 && y > 0);

      // The same by key: one step there and back, ten steps, and a value typed at the handle.
      await part.focus();
      const forward = right > 0 || down < 0;
      await page.keyboard.press(forward ? "ArrowRight" : "ArrowLeft");
      const stepped = await now(part);
      assert.notEqual(stepped, first, "an arrow moves it");
      await settled(page);
      await agree("by arrow");
      await page.keyboard.press(forward ? "PageUp" : "PageDown");
      assert.ok(Math.abs((await now(part)) - stepped) > Math.abs(stepped - first) * 2, "Page Up moves it farther");
      await settled(page);
      await agree("by page");
      await page.keyboard.press("Control+z");
      await page.keyboard.press("Control+z");
      assert.equal(await textOf(page), before);
      await page.keyboard.press("Enter");
      assert.equal(await page.evaluate(() => document.activeElement.className), "grip-entry");
      await page.keyboard.type(typed);
      await page.keyboard.press("Enter");
      assert.equal(await textOf(page), after, "the typed value does what the drag did");
      assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-label")), name, "the focus stays");
    }));
}

for (const [lesson, name, right, down] of [
  ["overhang", "load 1: place", 230, 0],
  ["lighting-bridge", "screen: place", -300, 0],
  ["lighting-bridge", "winch: place", 500, 0],
  ["overhang", "load 1: force = P_1", 0, 90],
]) {
  test(`${lesson}: under ${name} the beam stays where it is, though labels come and go in rows above it`, () =>
    onPage({ lesson }, async (page) => {
      const part = handle(page, "beam-given", name);
      const look = () => page.evaluate(() => {
        const beam = document.getElementById("beam-given-beam").getBoundingClientRect();
        const sheet = document.querySelector("#drawing-beam-given > svg").getAttribute("viewBox").split(" ").map(Number);
        return { beam: [beam.left, beam.bottom], sheet };
      });
      const [x, y] = await centre(part);
      const first = await look();
      await page.mouse.move(x, y);
      await page.mouse.down();
      let { sheet } = first;
      for (let step = 1; step <= 40; step += 1) {
        await page.mouse.move(x + (right * step) / 40, y + (down * step) / 40);
        await frame(page);
        const now = await look();
        // Only where a label sticks out at the side all is drawn a little smaller.
        const far = now.beam.map((edge, way) => (way === 0 && now.sheet[2] > first.sheet[2] ? 0 : Math.abs(edge - first.beam[way])));
        assert.ok(Math.max(...far) < 1.5, `step ${step}: ${now.beam} from ${first.beam}`);
        const [[left, top, width, height], [l, t, w, h]] = [sheet, now.sheet];
        assert.ok(l <= left && t <= top && l + w >= left + width && t + h >= top + height, `step ${step}: ${now.sheet} after ${sheet}`);
        ({ sheet } = now);
      }
      await page.mouse.up();
      await button(page, "Undo").click();
      assert.deepEqual((await look()).sheet, first.sheet, "at rest the sheet is as it is drawn");
    }));
}

test("the cut rests at a joint, and its two sides can be read", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    const cut = handle(page, "section", "place of the cut");
    await cut.focus();
    await page.keyboard.press("ArrowDown");
    assert.doesNotMatch(await cut.getAttribute("aria-valuetext"), /between flange and web/);
    await page.keyboard.press("n");
    assert.match(await cut.getAttribute("aria-valuetext"), /at between flange and web/);
    await settled(page);
    // tau = V Q / (I t): 5 kN on Q = 144 x 10^3 mm3 and I = 20 x 10^6 mm4, t = 15 mm below and 90 mm above.
    near(await value(page, "shear stress on the cut"), 2.4e6);
    near(await value(page, "shear stress just above the cut"), 0.4e6);
  }));

test("the slice is made longer and shorter by exact lengths", () =>
  onPage({ lesson: "porch-beam" }, async (page) => {
    const length = handle(page, "slice", "length of the slice");
    for (const typed of ["20 in", "2 in", "0.2 in"]) {
      await length.focus();
      await page.keyboard.press("Enter");
      await page.keyboard.type(typed);
      await page.keyboard.press("Enter");
      assert.equal(await field(page, "slice.length").inputValue(), typed);
      near(await value(page, "length of the slice"), Number.parseFloat(typed) * inch);
    }
  }));
