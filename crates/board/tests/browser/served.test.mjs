// The served board and its lesson file, in step both ways: the command serves a copy of a lesson, a browser opens it.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { button, field, folder, glueline, lessonText, near, onTab, ready, textOf, value } from "./real-page.mjs";

const lesson = lessonText("overhang");
const moved = lesson.replace('at = "2 m"', 'at = "1 m"');
const reaction = (at) => (12500 * (4 - at) - 5000) / 4; // closed form: moments about B

/** Serves a copy of the lesson and opens its board. */
async function onBoard(act) {
  const file = join(mkdtempSync(join(folder, "served-")), "overhang.toml");
  writeFileSync(file, lesson);
  const server = spawn(glueline, ["board", file, "--no-open"], { stdio: ["ignore", "pipe", "pipe"] });
  try {
    const address = await new Promise((found, failed) => {
      let told = "";
      const patience = setTimeout(() => failed(new Error(`no address: ${told}`)), 20_000);
      const listen = (words) => {
        told += words;
        const address = /http:\/\/\S+/.exec(told);
        if (address) { clearTimeout(patience); found(address[0]); }
      };
      server.stdout.on("data", listen);
      server.on("exit", () => failed(new Error(`ended: ${told}`)));
    });
    await onTab({ network: true }, async (page, faults) => {
      const said = [];
      await page.exposeFunction("heard", (words) => said.push(words));
      await page.goto(address);
      await ready(page);
      await page.evaluate(() => {
        const status = document.getElementById("said");
        new MutationObserver(() => window.heard(status.textContent)).observe(status, { childList: true, characterData: true, subtree: true });
      });
      const hear = async (what) => {
        for (let turn = 0; turn < 100 && !said.some((words) => what.test(words)); turn += 1) await page.waitForTimeout(100);
        assert.ok(said.some((words) => what.test(words)), `${what} among ${JSON.stringify(said)}`);
        said.length = 0;
      };
      await act({ page, file, server, address, hear, faults });
    });
  } finally {
    server.kill("SIGKILL");
  }
}
const onFile = (file) => readFileSync(file, "utf8");
const follows = (page, text) => page.waitForFunction((text) => board.text === text, text, { timeout: 10_000 });
async function type(page, path, words) {
  await field(page, path).fill(words);
  await field(page, path).press("Enter");
}

test("an edit of the file is on the board, and can be undone there", () =>
  onBoard(async ({ page, file, hear }) => {
    near(await value(page, "reaction at A"), reaction(2));
    writeFileSync(file, moved);
    await follows(page, moved);
    await hear(/changed elsewhere; the board shows it now/);
    near(await value(page, "reaction at A"), reaction(1));
    assert.equal(await field(page, "beam.loads[0].at").inputValue(), "1 m");
    await button(page, "Undo").click();
    assert.equal(await textOf(page), lesson);
    assert.equal(onFile(file), moved, "undo is no saving");
    assert.match(await page.title(), /^\* /);
  }));

test("a change of the board is saved to the file, whose comments stay", () =>
  onBoard(async ({ page, file, hear }) => {
    await type(page, "beam.loads[0].at", "1 m");
    assert.equal(onFile(file), lesson, "nothing is written before it is asked for");
    await button(page, "Save to the file").click();
    await hear(/^Saved\.$/);
    assert.equal(onFile(file), moved);
    assert.equal(await button(page, "Save to the file").getAttribute("aria-disabled"), "true");
    assert.doesNotMatch(await page.title(), /^\* /);
    await type(page, "slice.at", "1.5 m");
    await page.keyboard.press("Control+s");
    await hear(/^Saved\.$/);
    assert.equal(onFile(file), moved.replace(/(\[slice\]\nat = )"1 m"/, '$1"1.5 m"'));
    writeFileSync(file, lesson); // and the way back still goes
    await follows(page, lesson);
  }));

test("a file with a mistake is waited for, and followed when it is mended", () =>
  onBoard(async ({ page, file, hear }) => {
    for (const faulty of [lesson.replace('"5 m"', '"5 kN"'), "[", ""]) {
      writeFileSync(file, faulty);
      await hear(/has a mistake now: the board waits/);
      assert.equal(await textOf(page), lesson);
      assert.equal(await page.locator("#message").isVisible(), true);
    }
    writeFileSync(file, moved);
    await follows(page, moved);
    near(await value(page, "reaction at A"), reaction(1));
    assert.equal(await page.locator("#message").isVisible(), false);
  }));

for (const [choice, stays] of [["Take the file’s", moved], ["Keep the board’s and write over the file", null]]) {
  test(`changed on both sides, it asks: ${choice}`, () =>
    onBoard(async ({ page, file }) => {
      await type(page, "slice.at", "1.5 m");
      const ours = await textOf(page);
      writeFileSync(file, moved);
      const question = page.getByRole("alertdialog", { name: "Two versions of the lesson" });
      await question.waitFor({ timeout: 10_000 });
      assert.deepEqual([await textOf(page), onFile(file)], [ours, moved], "nothing is taken unasked");
      await question.getByRole("button", { name: choice }).click();
      await follows(page, stays ?? ours);
      await page.waitForFunction(() => document.getElementById("save").getAttribute("aria-disabled") === "true", null, { timeout: 10_000 });
      assert.equal(onFile(file), stays ?? ours);
      assert.equal(await question.count(), 0);
      await button(page, "Undo").click();
      assert.equal(await textOf(page), stays ? ours : moved, "the other is one step back");
    }));
}

test("saving over a file that has changed asks first", () =>
  onBoard(async ({ page, file, faults }) => {
    await type(page, "slice.at", "1.5 m");
    const ours = await textOf(page);
    writeFileSync(file, moved);
    await button(page, "Save to the file").click();
    await page.getByRole("alertdialog", { name: "Two versions of the lesson" }).waitFor({ timeout: 10_000 });
    assert.deepEqual([await textOf(page), onFile(file)], [ours, moved]);
    // The browser itself tells of each answer that is a refusal (RFC 9110, 15.5.13).
    faults.splice(0, faults.length, ...faults.filter((fault) => !fault.includes("412 (Precondition Failed)")));
  }));

test("a board that is no longer served says so, and keeps what is not saved", () =>
  onBoard(async ({ page, server, faults }) => {
    await type(page, "slice.at", "1.5 m");
    server.kill("SIGKILL");
    const question = page.getByRole("alertdialog", { name: "Not saved" });
    await question.waitFor({ timeout: 15_000 });
    assert.match(await question.textContent(), /no longer serves this board/);
    const [copy] = await Promise.all([page.waitForEvent("download"), question.getByRole("button", { name: /Keep a copy/ }).click()]);
    assert.equal(readFileSync(await copy.path(), "utf8"), await textOf(page));
    await type(page, "slice.at", "1.2 m");
    near(await value(page, "bending moment at the slice"), 6000);
    // The browser itself tells of each connection that failed.
    faults.splice(0, faults.length, ...faults.filter((fault) => !/ERR_CONNECTION_REFUSED|ERR_INCOMPLETE|ERR_CONNECTION_RESET|ERR_EMPTY/.test(fault)));
  }));

test("whoever does not know the token learns nothing", () =>
  onBoard(async ({ address }) => {
    const { origin } = new URL(address);
    assert.match(address, /^http:\/\/127\.0\.0\.1:\d+\/[0-9a-f]{48}\/$/);
    for (const path of ["/", "/lesson", "/changes", `/${"0".repeat(48)}/`, "/../lesson"]) {
      const answer = await fetch(origin + path);
      assert.deepEqual([answer.status, await answer.text()], [404, ""], path);
    }
  }));

test("loaded again after saving, what stands beside the lesson is there still", () =>
  onBoard(async ({ page, file }) => {
    await button(page, "More").click();
    await button(page, "Dark board").click();
    await page.keyboard.press("Escape");
    await type(page, "beam.loads[0].at", "1 m");
    await button(page, "Save to the file").click();
    await page.waitForFunction(() => !document.getElementById("save").hasAttribute("data-unsaved"));
    assert.equal(onFile(file), moved);
    await page.waitForTimeout(400);
    await page.reload();
    await ready(page);
    assert.equal(await page.evaluate(() => document.documentElement.dataset.board), "dark");
    assert.equal(await textOf(page), moved);
    assert.equal(await page.evaluate(() => document.getElementById("save").hasAttribute("data-unsaved")), false);
  }));

/** Leaves the page although it asks whether to: what it asks with is the browser's own. */
function leaveUnasked(page) {
  page.removeAllListeners("dialog");
  page.on("dialog", (dialog) => dialog.accept());
}
const unsaved = (page) => page.evaluate(() => document.getElementById("save").hasAttribute("data-unsaved"));

test("loaded again before saving, the changes are there still, and still to be saved", () =>
  onBoard(async ({ page, file }) => {
    leaveUnasked(page);
    await type(page, "beam.loads[0].at", "1 m");
    await page.waitForTimeout(400);
    await page.reload();
    await ready(page);
    assert.deepEqual([await textOf(page), onFile(file)], [moved, lesson]);
    near(await value(page, "reaction at A"), reaction(1));
    assert.equal(await unsaved(page), true);
    assert.match(await page.title(), /^\* /);
    await button(page, "Undo").click();
    assert.equal(await textOf(page), lesson, "one step back is the file's");
    assert.equal(await unsaved(page), false);
    await button(page, "Redo").click();
    await button(page, "Save to the file").click();
    await page.waitForFunction(() => !document.getElementById("save").hasAttribute("data-unsaved"));
    assert.equal(onFile(file), moved);
  }));

test("loaded again before saving, and the file changed meanwhile: it asks, and nothing is written unasked", () =>
  onBoard(async ({ page, file, address }) => {
    leaveUnasked(page);
    await type(page, "slice.at", "1.5 m");
    const ours = await textOf(page);
    await page.waitForTimeout(400);
    await page.goto("about:blank");
    writeFileSync(file, moved);
    await page.goto(address);
    await ready(page);
    const question = page.getByRole("alertdialog", { name: "Two versions of the lesson" });
    await question.waitFor({ timeout: 10_000 });
    assert.deepEqual([await textOf(page), onFile(file)], [ours, moved]);
    await question.getByRole("button", { name: "Take the file’s" }).click();
    await follows(page, moved);
    await button(page, "Undo").click();
    assert.equal(await textOf(page), ours, "the board's is one step back");
    assert.equal(onFile(file), moved);
  }));

test("loaded again with nothing unsaved, it shows the file as it is now", () =>
  onBoard(async ({ page, file, address }) => {
    await page.goto("about:blank");
    writeFileSync(file, moved);
    await page.goto(address);
    await ready(page);
    await follows(page, moved);
    assert.equal(await unsaved(page), false);
  }));
