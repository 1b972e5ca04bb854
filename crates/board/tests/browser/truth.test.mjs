// The elastic truth on the page: it comes when it is asked for, by the keyboard too, says what the command says of the same
// lesson, and keeps in step with the hand once that rests.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { folder, glueline, names, onPage, textOf } from "./real-page.mjs";

const said = (page) => page.$eval("#elastic", (piece) => piece.textContent.replace(/\s+/g, " "));

/** What the command says of the lesson that the page shows: the largest stress and the form factor as printed, or why there is none. */
async function byTheCommand(page) {
  const file = join(folder, "true.toml");
  writeFileSync(file, await textOf(page));
  const { elastic } = JSON.parse(execFileSync(glueline, ["values", file, "--json"], { encoding: "utf8", maxBuffer: 1e8 }));
  const shown = (name) => elastic.rows.find((row) => row.name === name)?.shown.replace(/\s+/g, " ").replace("−", "");
  return elastic.rows.length === 0
    ? [elastic.cautions[0].slice(1)]
    : [shown("largest true shear stress of the section"), shown("form factor of the true stress")];
}

for (const lesson of names) {
  test(`${lesson}: the elastic truth on the page is that of the command`, () => onPage({ lesson }, async (page) => {
    const button = page.getByRole("button", { name: "Work out the elastic truth" });
    await button.focus();
    const started = await page.evaluate(() => performance.now());
    await page.keyboard.press("Enter");
    const took = await page.evaluate((started) => performance.now() - started, started);
    console.log(`${lesson}: ${Math.round(took)} ms`);
    assert.equal(await button.count(), 0);
    assert.equal(await page.evaluate(() => document.activeElement.id), "elastic");
    for (const part of await byTheCommand(page)) assert.ok((await said(page)).includes(part), `${part} in ${await said(page)}`);
    const first = await said(page);
    // Another load, the same section: a drag that is ended.
    await page.evaluate(() => {
      const grip = document.querySelector(".grip");
      grip.focus();
      for (let press = 0; press < 5; press += 1) {
        grip.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowUp", bubbles: true, cancelable: true }));
      }
      grip.blur();
      board.commit();
    });
    for (const part of await byTheCommand(page)) assert.ok((await said(page)).includes(part), `${part} in ${await said(page)}`);
    await page.evaluate(() => board.undo());
    assert.equal(await said(page), first);
  }));
}
