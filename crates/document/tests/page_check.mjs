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

// What does not hang on colours or widths, at the width of a desk; contrast in both schemes; the rest on a narrow screen.
const contrast = ["color-contrast", "link-in-text-block"];
const but = (rules) => ({ rules: Object.fromEntries(rules.map((rule) => [rule, { enabled: false }])) });
const only = (rules) => ({ runOnly: rules });
const views = [
  { width: 1280, colorScheme: "light", asked: [only(contrast), but(contrast)] },
  { width: 390, colorScheme: "dark", asked: [only(contrast)] },
  { width: 320, colorScheme: "light", asked: [only(["scrollable-region-focusable", "target-size"])] },
];

async function faultsOf(file, { width, colorScheme, asked }) {
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
  const coloured = await page.evaluate(() =>
    [...document.querySelectorAll("math, math *")].filter((part) => getComputedStyle(part).color !== getComputedStyle(part.parentElement).color).length);
  if (coloured > 0) told.push(`${coloured} parts of formulas have a colour of their own, and nobody looked at its contrast`);
  await page.evaluate(axe);
  for (const rules of asked) {
    // A formula has thousands of parts, all of the colour of its words: its contrast is theirs.
    const within = rules.runOnly === contrast ? { exclude: ["math"] } : null;
    const { violations } = await page.evaluate(([within, rules]) => axe.run(within ?? document, rules), [within, rules]);
    for (const { id, nodes } of violations) told.push(`${id}: ${nodes.length}, first ${nodes[0].html.slice(0, 120)}`);
  }
  await page.close();
  return told.map((fault) => `${file}, ${width} px, ${colorScheme}: ${fault}`);
}

// Two at a time, each in a process of its own.
const waiting = views.flatMap((view) => process.argv.slice(2).map((file) => [file, view]));
let faults = 0;
async function worker() {
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    for (const fault of await faultsOf(...next)) {
      console.log(fault);
      faults += 1;
    }
  }
}
await Promise.all([worker(), worker()]);
await browser.close();
console.log(faults === 0 ? "pages: no faults" : `pages: ${faults} faults`);
process.exit(faults === 0 ? 0 : 1);
