// The browser of a test file, and the hand that works in it.
//
//   PLAYWRIGHT=path/to/node_modules BROWSER=path/to/chromium node --test ...

import { createRequire } from "node:module";
import { join, resolve } from "node:path";
import { after, before } from "node:test";

const { chromium } = createRequire(join(resolve(process.env.PLAYWRIGHT ?? "node_modules"), "from.cjs"))("playwright-core");

/** Runs from the first test of the file to the last. */
export let browser;
before(async () => {
  browser = await chromium.launch({ executablePath: process.env.BROWSER, args: ["--no-sandbox", "--disable-gpu"] });
});
after(() => browser?.close());

/** Waits until what was asked for is on the screen. */
export const frame = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** Takes the mouse, pressed at a place, along by so many px; it stays pressed. */
export async function pullFrom(page, [x, y], right, down) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + right / 2, y + down / 2);
  await page.mouse.move(x + right, y + down);
  await frame(page);
}
