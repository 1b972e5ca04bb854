// Opens HTML pages in a browser and holds them to WCAG 2.2 AA as far as a machine can: axe-core's rules, no sideways
// scrolling of the page at 320 px (1.4.10), no request, no message of the console, every face in use.
//
//   npm install playwright-core@1.65.1 axe-core@4.14.1
//   BROWSER=/usr/bin/chromium node page_check.mjs FILE.html ...

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await chromium.launch({
  executablePath: process.env.BROWSER ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});
let faults = 0;
for (const [width, colorScheme] of [[1280, "light"], [390, "dark"], [320, "light"]]) {
  for (const file of process.argv.slice(2)) {
    const told = [];
    const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
    page.on("console", (message) => message.type() === "error" && told.push(message.text()));
    page.on("request", (request) => /^(file|data):/.test(request.url()) || told.push(`request: ${request.url()}`));
    await page.goto(pathToFileURL(resolve(file)).href);
    await page.evaluate(() => document.querySelectorAll("details").forEach((part) => (part.open = true)));
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (over > 0) told.push(`the page is ${over} px too wide`);
    const faces = await page.evaluate(() => [...document.fonts].filter((face) => face.status === "loaded").map((face) => face.family));
    // A page with formulas needs the face for them, and every page one for its words.
    const formulas = await page.evaluate(() => document.querySelector("math") !== null);
    for (const wanted of formulas ? ["Libertinus Serif", "STIX Two Math"] : ["Libertinus Serif"]) {
      if (!faces.some((face) => face.includes(wanted))) told.push(`${wanted} is not in use`);
    }
    await page.evaluate(axe);
    const { violations } = await page.evaluate(() => axe.run());
    for (const { id, nodes } of violations) told.push(`${id}: ${nodes.length}, first ${nodes[0].html.slice(0, 120)}`);
    for (const fault of told) console.log(`${file}, ${width} px, ${colorScheme}: ${fault}`);
    faults += told.length;
    await page.close();
  }
}
await browser.close();
console.log(faults === 0 ? "pages: no faults" : `pages: ${faults} faults`);
process.exit(faults === 0 ? 0 : 1);
