// What the board shows happily and the command would refuse is told when the hand rests, and again when the lesson is saved.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { button, field, folder, glueline, handle, lessonText, message, offered, onPage, pull, textOf } from "./real-page.mjs";

const caution = (page) => page.evaluate(() => {
  const place = document.getElementById("caution");
  return place.checkVisibility() ? place.querySelector("p").textContent : "";
});
const cautioned = (page, words) =>
  page.waitForFunction((words) => {
    const place = document.getElementById("caution");
    return place.checkVisibility() ? Boolean(words) && place.textContent.includes(words) : !words;
  }, words, { timeout: 10_000 });

/** Whether the command takes a text. */
function takes(text) {
  const file = join(folder, "checked.toml");
  writeFileSync(file, text);
  try {
    execFileSync(glueline, ["check", file], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}

async function type(page, path, words) {
  await field(page, path).fill(words);
  await field(page, path).press("Enter");
}

// The trestles of the conveyor stand 3 m to 5 m apart: on the shortest beam nothing stands beyond 6 m.
const OFF = "the slice begins at 7 m, off the beam, which ends at 6 m (with L = 3 m)";

test("what some papers cannot have is told at rest, not under the hand, and one step back mends it", () =>
  onPage({ lesson: "conveyor" }, async (page) => {
    const before = await textOf(page);
    const slice = handle(page, "beam-given", "position of the slice");
    const plate = await page.locator("#drawing-beam-given").boundingBox();
    await pull(page, slice, 0.75 * plate.width, 0);
    await page.waitForTimeout(600);
    assert.equal(await caution(page), "", "nothing is said while it is held");
    await page.mouse.up();
    await cautioned(page, "Neither papers nor notes can be made from this lesson as it stands now: the slice begins at ");
    assert.equal(takes(await textOf(page)), false, "the command says the same");
    assert.match(await caution(page), /off the beam, which ends at 6 m \(with L = 3 m\)\. To mend it: give a position from 0 to 6 m\.$/);
    await page.waitForFunction(() => /position of the slice .*Neither papers/.test(document.getElementById("said").textContent));
    await button(page, "Undo the last step").click();
    await cautioned(page, "");
    assert.equal(await textOf(page), before);
    assert.equal(await page.evaluate(() => document.activeElement.closest("#bar") !== null), true, "the focus is not lost");
  }));

test("it may be left so, is not told again for each step, and comes back when the lesson is saved", () =>
  onPage({ lesson: "conveyor" }, async (page) => {
    await type(page, "slice.at", "7 m");
    await cautioned(page, OFF);
    // What is refused stands before it, and goes first.
    await type(page, "slice.at", "9 m");
    assert.match(await message(page), /9 m/);
    assert.equal(await caution(page), "");
    await page.keyboard.press("Escape");
    await cautioned(page, OFF);
    await button(page, "Leave it so").click();
    await cautioned(page, "");
    await type(page, "slice.at", "6.5 m");
    await page.waitForTimeout(1000);
    assert.equal(await caution(page), "");
    const saved = await offered(page, () => button(page, "Save the lesson").click());
    await cautioned(page, "the slice begins at 6.5 m");
    await page.waitForFunction(() => document.getElementById("said").textContent.includes("6.5 m"));
    assert.equal(saved.bytes.toString(), await textOf(page));
    // Once it is sound again the next fault is news.
    await type(page, "slice.at", "1 m");
    await cautioned(page, "");
    await type(page, "slice.at", "7 m");
    await cautioned(page, OFF);
    await page.reload();
    await page.waitForSelector("html[data-ready]");
    await cautioned(page, OFF);
  }));

test("a stop of the drawing is stated in the words of the lesson, so that it holds for every paper", () =>
  onPage({ lesson: "conveyor" }, async (page) => {
    const end = handle(page, "beam-given", "load 1: end");
    await end.focus();
    for (let press = 0; press < 3; press += 1) await page.keyboard.press("ArrowLeft");
    await page.waitForFunction(() => board.text === board.rest && !board.text.includes('to = "2*L"'));
    await page.keyboard.press("End");
    await page.waitForFunction(() => board.text === board.rest && board.text.includes('to = "2*L"'));
    assert.equal(await textOf(page), lessonText("conveyor"));
  }));

test("a requirement that no draw meets is told; on a phone and with the drawings dark all of it can be read and pressed", () =>
  onPage({ lesson: "gangway", viewport: { width: 360, height: 640 }, colorScheme: "dark" }, async (page) => {
    // Closed form: R_A = (P (4 m - x) - (F/2) 2 m) / 4 m; with P at 5.5 m both terms lift the beam off A on every paper.
    await type(page, "beam.loads[0].at", "5.5 m");
    await cautioned(page, "the lesson requires: the reactions are positive");
    const box = await page.locator("#caution").boundingBox();
    assert.ok(box.x >= 0 && box.x + box.width <= 360 && box.y >= 0, JSON.stringify(box));
    for (const name of ["Undo the last step", "Leave it so"]) {
      const { height } = await button(page, name).boundingBox();
      assert.ok(height >= 24, `${name}: ${height}`);
    }
  }));
