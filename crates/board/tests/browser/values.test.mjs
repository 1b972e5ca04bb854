// The numbers on the page are those of the command for the same lesson: bit for bit, though one engine runs in the
// browser and the other on the machine.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { folder, launch, lessons, open, pageOf, run } from "./pages.mjs";

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

const onThePage = (page) => page.$$eval("#values td[data-name]", (cells) =>
  cells.map((cell) => [cell.dataset.name, Number(cell.dataset.value), cell.textContent]));

/** What the command says of the lesson that the page shows. */
async function byTheCommand(page, name) {
  const file = join(folder, `${name}.toml`);
  writeFileSync(file, await page.evaluate(() => board.text));
  return JSON.parse(run("values", file, "--json")).rows.map(({ name, value, shown }) => [name, value, shown]);
}

for (const lesson of lessons) {
  test(`${lesson}: the values on the page are those of the command`, async () => {
    const { context, page, wrong } = await open(browser, pageOf(lesson));
    assert.deepEqual(await onThePage(page), await byTheCommand(page, lesson));
    // Everything that can be dragged goes a few steps up or down, and stays there.
    const handles = await page.$$eval(".grip", (grips) => grips.length);
    let moved = 0;
    for (let place = 0; place < handles; place += 3) {
      moved += await page.evaluate((place) => {
        const grip = document.querySelectorAll(".grip")[place];
        const value = Number(grip.getAttribute("aria-valuenow"));
        const before = board.text;
        grip.focus();
        for (const key of ["ArrowUp", "ArrowUp", "ArrowUp"]) grip.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
        grip.blur();
        board.commit();
        return Number(board.text !== before && Number.isFinite(value));
      }, place);
    }
    assert.ok(moved >= 2, `${moved} of ${handles} moved`);
    assert.deepEqual(await onThePage(page), await byTheCommand(page, `${lesson}-moved`));
    assert.deepEqual(wrong, []);
    await context.close();
  });
}
