// The real page for the tests: made by the command from a lesson, opened from the disk with the network cut.
//
//   GLUELINE=path/to/glueline PLAYWRIGHT=path/to/node_modules BROWSER=path/to/chromium node --test *.test.mjs

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { after, before } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { browser, frame, pullFrom } from "./browser.mjs";

export { frame };

export const glueline = resolve(process.env.GLUELINE ?? "target/release/glueline");
const lessons = fileURLToPath(new URL("../../../../lessons/", import.meta.url));
/** The built-in lessons. */
export const names = readdirSync(lessons).filter((file) => file.endsWith(".toml")).map((file) => file.slice(0, -5)).sort();

export let folder;
before(() => {
  folder = mkdtempSync(join(tmpdir(), "board-"));
});
after(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** The file of a built-in lesson. */
export const lessonFile = (name) => join(lessons, `${name}.toml`);
export const lessonText = (name) => readFileSync(lessonFile(name), "utf8");

/** Makes the page of a lesson file. @returns {string} where the page lies */
export function makePage(lesson) {
  const file = join(mkdtempSync(join(folder, "page-")), "page.html");
  execFileSync(glueline, ["page", lesson, "-o", file], { stdio: ["ignore", "ignore", "pipe"] });
  return file;
}

/** Makes the page of a lesson that a test has written. */
export function makePageOf(text) {
  const file = join(mkdtempSync(join(folder, "lesson-")), "lesson.toml");
  writeFileSync(file, text);
  return makePage(file);
}

const pages = new Map();
/** The page of a built-in lesson, made once. */
export function pageOf(name) {
  if (!pages.has(name)) pages.set(name, makePage(lessonFile(name)));
  return pages.get(name);
}

export async function ready(page) {
  await page.waitForFunction(() => document.documentElement.dataset.ready, null, { timeout: 15_000 });
}

/**
 * A tab that must keep silent: no error, no breach of the content security policy, and, unless `network` is allowed, no
 * request that leaves the disk.
 */
export async function onTab({ network = false, ...look }, act) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, acceptDownloads: true, ...look });
  const faults = [];
  const watch = (page) => {
    page.on("pageerror", (error) => faults.push(String(error)));
    page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
    page.on("dialog", (dialog) => { faults.push(`dialog: ${dialog.message()}`); dialog.dismiss().catch(() => {}); });
    if (!network) page.on("request", (request) => /^(file|data|blob):/.test(request.url()) || faults.push(`request: ${request.url()}`));
  };
  context.on("page", watch);
  await context.exposeFunction("breach", (what) => faults.push(`policy: ${what}`));
  await context.addInitScript(() => {
    addEventListener("securitypolicyviolation", (event) => window.breach(`${event.violatedDirective} ${event.blockedURI}`));
  });
  if (!network) await context.setOffline(true);
  try {
    const page = await context.newPage();
    await act(page, faults);
    assert.deepEqual(faults, []);
  } finally {
    await context.close();
  }
}

/** Opens the page of a built-in lesson, or a page file, and hands it over when it answers. */
export function onPage(what, act) {
  const { lesson = "porch-beam", file = null, hash = "", ...look } = what;
  return onTab(look, async (page, faults) => {
    await page.goto(pathToFileURL(file ?? pageOf(lesson)).href + hash);
    await ready(page);
    await act(page, faults);
  });
}

// What the tests ask of a page.

export const textOf = (page) => page.evaluate(() => board.text);
export const field = (page, path) => page.locator(`input[data-path="${path}"]`);
export const message = (page) => page.evaluate(() => (document.getElementById("message").hidden ? "" : document.getElementById("message").textContent));
export const button = (page, name) => page.getByRole("button", { name, exact: true });
/** A value of the sheet's table, in SI. */
export const value = (page, name) =>
  page.evaluate((name) => Number(document.querySelector(`[data-name="${name}"]`)?.dataset.value ?? NaN), name);
export const near = (found, wanted, what = "") =>
  assert.ok(Math.abs(found - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted)), `${what} ${found}, expected ${wanted}`);
export const over = (page) => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

/** A handle of a drawing by its name; several may change one value: the first is taken. */
export const handle = (page, drawing, name) =>
  page.locator(`.plate[data-grips="drawing-${drawing}"]`).getByRole("slider", { name, exact: true }).first();

export async function centre(part) {
  await part.evaluate((element) => element.scrollIntoView({ block: "center" }));
  const box = await part.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Presses the mouse on a handle and takes it along by so many px; it stays pressed. */
export async function pull(page, part, right, down) {
  await pullFrom(page, await centre(part), right, down);
}

/** Presses a button that lies behind More. */
export async function more(page, name) {
  await button(page, "More").click();
  await button(page, name).click();
}

/**
 * What a press of a button offers as a file: its name and its bytes. A busy browser may hold one of many downloads in a row
 * back: it is then asked for a second time, and no more.
 */
export async function offered(page, act) {
  const press = async () => {
    const [download] = await Promise.all([page.waitForEvent("download", { timeout: 15_000 }).catch(() => null), act()]);
    return download;
  };
  const download = (await press()) ?? (await press());
  assert.ok(download, "nothing was offered");
  const file = join(mkdtempSync(join(folder, "taken-")), download.suggestedFilename());
  await download.saveAs(file);
  return { name: download.suggestedFilename(), file, bytes: readFileSync(file) };
}
