// The numbers on the page are those of the command for the same lesson: bit for bit, though one engine runs in the
// browser and the other on the machine.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { folder, glueline, names, onPage, textOf } from "./real-page.mjs";

const onThePage = (page) => page.$$eval("#values td[data-name]", (cells) =>
  cells.map((cell) => [cell.dataset.name, Number(cell.dataset.value), cell.textContent]));

/** What the command says of the lesson that the page shows. */
async function byTheCommand(page) {
  const file = join(folder, "shown.toml");
  writeFileSync(file, await textOf(page));
  const said = execFileSync(glueline, ["values", file, "--json"], { encoding: "utf8", maxBuffer: 1e8 });
  return JSON.parse(said).rows.map(({ name, value, shown }) => [name, value, shown]);
}

/** Takes a handle three steps on by the keyboard, for good. @returns {boolean} whether the lesson is another now */
const stepped = (page, place) => page.evaluate((place) => {
  const grip = document.querySelectorAll(".grip")[place];
  const before = board.text;
  grip.focus();
  for (let press = 0; press < 3; press += 1) {
    grip.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowUp", bubbles: true, cancelable: true }));
  }
  grip.blur();
  board.commit();
  return board.text !== before;
}, place);

for (const lesson of names) {
  test(`${lesson}: the values on the page are those of the command`, () => onPage({ lesson }, async (page) => {
    const opened = await onThePage(page);
    assert.ok(opened.length > 50, `${opened.length} values`);
    assert.deepEqual(opened, await byTheCommand(page));
    const handles = await page.locator(".grip").count();
    let moved = 0;
    for (let place = 0; place < handles; place += 3) moved += await stepped(page, place);
    assert.ok(moved >= 2, `${moved} of ${handles} moved`);
    const later = await onThePage(page);
    assert.notDeepEqual(later, opened);
    assert.deepEqual(later, await byTheCommand(page));
  }));
}
