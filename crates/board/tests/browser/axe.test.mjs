// The accessibility rules of a browser extension that is not ours, on every built-in lesson, in both lights, on a phone
// and a laptop, in each of the states that a lecture passes through.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch, lessons, open, pageOf } from "./pages.mjs";

const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const SIZES = { phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, laptop: { viewport: { width: 1280, height: 800 } } };
const STATES = {
  "at rest": async () => {},
  "a refused value": async (page) => {
    const field = page.locator("#fields-cut input");
    await field.fill("nowhere");
    await field.press("Enter");
    assert.match(await page.locator("#message").textContent(), /\w/);
    await field.press("Escape");
  },
  "the other controls": (page) => page.getByRole("button", { name: "More" }).click(),
  "writing": async (page) => {
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Write", exact: true }).click();
  },
  "a lecture with questions": async (page) => {
    await page.getByRole("button", { name: "Lecture" }).click();
    await page.getByRole("button", { name: "Predict first" }).click();
    for (let press = 0; press < 3; press += 1) await page.getByRole("button", { name: "Next" }).click();
  },
};

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

for (const lesson of lessons) {
  for (const [size, options] of Object.entries(SIZES)) {
    for (const colorScheme of ["light", "dark"]) {
      test(`${lesson}, ${size}, ${colorScheme}`, async () => {
        // The rules come as a script, which the page itself would not let in.
        const { context, page } = await open(browser, pageOf(lesson), { ...options, colorScheme, bypassCSP: true, reducedMotion: "reduce" });
        await page.addScriptTag({ path: process.env.AXE });
        // The controls are the same whatever the lesson: one lesson goes through all states.
        const states = Object.entries(STATES).slice(0, lesson === "box-girder" ? undefined : 1);
        for (const [state, enter] of states) {
          await enter(page);
          const found = await page.evaluate((tags) => axe.run(document, { runOnly: tags, resultTypes: ["violations"] }), TAGS);
          const told = found.violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${node.failureSummary}`).join(" | ")}`);
          assert.deepEqual(told, [], state);
        }
        await context.close();
      });
    }
  }
}
