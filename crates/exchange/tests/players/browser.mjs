// Packages in a browser, played by open players as a student would: typed, pressed, read from the screen.
//
//   PACKAGES=folder PLAYERS=path/to/node_modules PLAYWRIGHT=path/to/node_modules BROWSER=path/to/chromium node --test *.test.mjs

import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";
import { after, before } from "node:test";

const { chromium } = createRequire(join(resolve(process.env.PLAYWRIGHT ?? "node_modules"), "from.cjs"))("playwright-core");
export const players = resolve(process.env.PLAYERS ?? "node_modules");
export const packages = resolve(process.env.PACKAGES ?? "packages");

/** The folder of the package that is played, unpacked. */
let played = join(packages, "3.0");
export const open = (folder) => {
  played = resolve(folder);
};

let browser;
before(async () => {
  browser = await chromium.launch({ executablePath: process.env.BROWSER, args: ["--no-sandbox", "--disable-gpu"] });
});
after(() => browser?.close());

/** The address under which everything lies; nothing there leaves this machine. */
const HOST = "http://package.test";

const html = (head, body) => `<!doctype html><html lang="en"><meta charset="utf-8"><title>An item</title>${head}<body>${body}</body></html>`;

/** Opens a page of ours with a player and a package behind it, and hands it over; nothing may be asked for in vain. */
export async function onPage(head, body, act) {
  const page = await browser.newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  await page.route("**/*", (route) => {
    const { origin, pathname } = new URL(route.request().url());
    if (origin === HOST && pathname === "/") return route.fulfill({ contentType: "text/html", body: html(head, body) });
    const [, where, ...rest] = pathname.split("/");
    const file = join({ players, package: played }[where] ?? "nowhere", ...rest);
    if (origin === HOST && existsSync(file)) return route.fulfill({ path: file });
    if (!pathname.endsWith(".ico")) faults.push(`not there: ${pathname}`);
    return route.fulfill({ status: 404 });
  });
  try {
    await page.goto(`${HOST}/`);
    await act(page);
    assert.deepEqual(faults, []);
  } finally {
    await page.close();
  }
}

/** The text of an item. */
export const itemText = (item) => readFileSync(join(played, `${item}.xml`), "utf8");

/** Waits until what was asked for is on the screen. */
export const settled = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** Closes what is said of an earlier attempt, the topmost first, then types the answers into the fields or takes a choice. */
export async function answer(page, answers, { fields, close, choice }) {
  while (await close.last().isVisible()) {
    await close.last().click();
    await settled(page);
  }
  for (const [place, answer] of [answers].flat().entries()) {
    if (typeof answer === "object") {
      await choice(answer).click();
    } else if (answer !== "" || ((await fields.count()) > place && (await fields.nth(place).inputValue()) !== "")) {
      await fields.nth(place).click();
      await page.keyboard.press("Control+A");
      await page.keyboard.press("Delete");
      await page.keyboard.type(answer);
      await page.keyboard.press("Tab");
    }
  }
}

/** What of an item a reader sees besides words: the widths of its pictures (0 of one that cannot be read), and whether its formulae are formulae. */
export async function shown(page) {
  const pictures = await page.locator("img").evaluateAll((all) =>
    Promise.all(all.map((picture) => picture.decode().then(() => picture.naturalWidth, () => 0))));
  const formulae = await page.locator("math").evaluateAll((all) => all.map((math) => math instanceof MathMLElement && math.getBoundingClientRect().width > 0));
  return { pictures, formulae };
}
