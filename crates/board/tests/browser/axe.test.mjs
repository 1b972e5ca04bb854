// The accessibility rules of a library that is not ours, on every built-in lesson, in both lights, on a phone
// and a laptop, in each of the states that a lecture passes through.
import assert from "node:assert/strict";
import { resolve } from "node:path";
import { test } from "node:test";
import { button, field, message, names, onPage } from "./real-page.mjs";

const RULES = resolve(process.env.AXE ?? "node_modules/axe-core/axe.min.js");

const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const SIZES = { phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, laptop: { viewport: { width: 1280, height: 800 } } };
const STATES = {
  "at rest": async () => {},
  "a refused value": async (page) => {
    await field(page, "cut.at").fill("nowhere");
    await field(page, "cut.at").press("Enter");
    assert.match(await message(page), /nowhere/);
    await field(page, "cut.at").press("Escape");
    // What is half scrolled away under the bar counts as a small target: at a heading nothing is.
    await page.locator("#h-section").evaluate((heading) => heading.scrollIntoView({ behavior: "instant" }));
  },
  "the other controls": (page) => button(page, "More").click(),
  "writing": async (page) => {
    await page.keyboard.press("Escape");
    await button(page, "Write").click();
  },
  "a paper to practise with": async (page) => {
    await page.keyboard.press("Escape");
    await page.locator("#practice-go").click();
    await page.keyboard.type("7");
    await page.keyboard.press("Enter");
    const part = page.locator("form.part[data-part]").filter({ has: page.locator(".answer") }).first();
    await part.locator(".answer input").fill("1 kN");
    await part.locator("button[type=submit]").click();
    await part.locator("button[data-hint]").click();
    // Under the bar a button that is half scrolled away counts as a small target: at the beginning none is.
    await page.locator("#practice").evaluate((place) => place.scrollIntoView({ behavior: "instant" }));
  },
  "a lecture with questions": async (page) => {
    await button(page, "Lecture").click();
    await button(page, "Predict first").click();
    for (let press = 0; press < 3; press += 1) await button(page, "Next").click();
  },
};

/**
 * What the rules find, in the page: of the contrast, and where `whole` of all else, which does not hang on the light.
 *
 * A formula has hundreds of parts, all of the colour of its words: where nothing else is asked of the page (`last`), each becomes one
 * word before the contrast is measured, which takes half the time.
 */
async function violations({ tags, whole, last }) {
  const rules = { "color-contrast": { enabled: false } };
  const resultTypes = ["violations"];
  const others = whole ? await axe.run(document, { runOnly: tags, rules, resultTypes }) : { violations: [] };
  const formulas = last ? [...document.querySelectorAll("math")] : [];
  for (const formula of formulas) {
    const colours = [formula, ...formula.querySelectorAll("*")].map((part) => getComputedStyle(part).color);
    if (new Set([getComputedStyle(formula.parentElement).color, ...colours]).size > 1) continue;
    const word = document.createElement("span");
    word.textContent = formula.textContent;
    formula.replaceWith(word);
  }
  const contrast = await axe.run(document, { runOnly: ["color-contrast"], resultTypes });
  return [...others.violations, ...contrast.violations];
}

for (const lesson of names) {
  for (const [size, look] of Object.entries(SIZES)) {
    // The rules come as a script, which the page itself would not let in.
    const what = { lesson, ...look, colorScheme: "light", bypassCSP: true, reducedMotion: "reduce" };
    test(`${lesson}, ${size}`, () => onPage(what, async (page) => {
      await page.addScriptTag({ path: RULES });
      // The controls are the same whatever the lesson: one lesson goes through all states.
      const states = Object.entries(STATES).slice(0, lesson === "box-girder" ? undefined : 1);
      const last = states.length === 1;
      for (const [state, enter] of states) {
        await enter(page);
        for (const light of ["light", "dark"]) {
          await page.evaluate((board) => { document.documentElement.dataset.board = board; }, light);
          const found = await page.evaluate(violations, { tags: TAGS, whole: light === "light", last });
          const told = found.map(({ id, help, nodes }) =>
            `${id}: ${help}: ${nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${node.failureSummary}`).join(" | ")}`);
          assert.deepEqual(told, [], `${state}, ${light}`);
        }
        await page.evaluate(() => { document.documentElement.dataset.board = "light"; });
      }
    }));
  }
}
