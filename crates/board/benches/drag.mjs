// How long the board takes to answer the hand, on the most crowded of the lessons, in a browser without a window.
//
//   PLAYWRIGHT=path/to/node_modules BROWSER=path/to/chromium GLUELINE=path/to/glueline node drag.mjs [LESSON] [STEPS]
//
// What is dragged moves to and fro under a real pointer, one move a frame. A step counts everything that the page's
// script does for it: the listener of the move, the engine, its words both ways, and every write to the page. The layout
// that the writes call for is forced afterwards and told apart, as the browser would else do it with the painting. Then
// the same in other ways, as a ratio: every drawing made whether it is seen or not, and every drawing that moved
// exchanged as a whole instead of by its difference.
//
// It prints and judges nothing, for a machine that does something else besides is slower: 120 steps a second leave
// 8 ms for each.

import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { loadavg, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const { chromium } = createRequire(join(resolve(process.env.PLAYWRIGHT ?? "node_modules"), "from.cjs"))("playwright-core");
const lesson = process.argv[2] ?? fileURLToPath(new URL("../../../lessons/lighting-bridge.toml", import.meta.url));
const STEPS = Number(process.argv[3] ?? 300);

/** What is dragged: what it is, the drawing, how what the handle there says of itself begins, and how far it goes, px. */
const DRAGS = [
  ["the station", "drawing-diagrams", "position of the slice", 120],
  ["the cut, on the section", "drawing-section", "place of the cut", 60],
  ["the cut, over the depth", "drawing-depth", "place of the cut", 60],
  ["a load's place", "drawing-beam-given", "winch: place", 80],
  ["a load's size", "drawing-beam-given", "winch: force", 30],
  ["a support", "drawing-beam-given", "B: place of the roller", 60],
  ["a part's height", "drawing-section", "flange thickness", 20],
];

/** Runs in the page before its own script: notes what each step takes. */
function watch() {
  const steps = [];
  const marks = { move: 0, engine: 0, aside: 0, svg: 0, ready: 0 };
  window.bench = { steps, marks, whole: false, frame: requestAnimationFrame.bind(window) };
  const now = performance.now.bind(performance);

  const { Instance } = WebAssembly;
  WebAssembly.Instance = function (module) {
    const { exports } = new Instance(module);
    const order = () => {
      const began = now();
      const at = exports.order();
      marks.engine += now() - began;
      return at;
    };
    return { exports: { memory: exports.memory, room: exports.room, order } };
  };

  // The first listener of a move and the last: what lies between them is the page's.
  let began = 0;
  addEventListener("pointermove", () => { began = now(); }, true);
  document.addEventListener("pointermove", () => { marks.move += now() - began; }, true);
  window.requestAnimationFrame = (act) => window.bench.frame((time) => {
    marks.engine = marks.aside = 0;
    const began = now();
    act(time);
    const ended = now();
    document.body.getBoundingClientRect();
    const laidOut = now();
    steps.push({ script: marks.move + ended - began - marks.aside, engine: marks.engine, layout: laidOut - ended });
    marks.move = 0;
  });

  new MutationObserver((_, observer) => {
    if (!marks.svg && document.querySelector("#sheet svg")) marks.svg = now();
    if (!document.documentElement?.dataset.ready) return;
    marks.ready = now();
    observer.disconnect();
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-ready"] });
}

const sorted = (numbers) => [...numbers].sort((a, b) => a - b);
const quantile = (numbers, part) => sorted(numbers)[Math.min(numbers.length - 1, Math.floor(part * numbers.length))] ?? NaN;
const median = (numbers) => quantile(numbers, 0.5);
const cell = (number) => number.toFixed(2).padStart(8);
/** A line of the report; of steps of a drag with the engine's part in the median. */
function row(name, steps, of = (step) => step.script) {
  const all = steps.map(of);
  const engine = steps[0].engine && of(steps[0]) === steps[0].script ? `  engine ${cell(median(steps.map((step) => step.engine)))}` : "";
  console.log(`${name.padEnd(34)}${cell(median(all))}${cell(quantile(all, 0.95))}${cell(Math.max(...all))}${engine}`);
}

/** Drags one handle to and fro under the mouse. @returns what each step took */
async function dragged(page, [, drawing, handle, reach]) {
  const grip = page.locator(`.grip[data-of="${drawing}"][aria-label^="${handle}"]`).first();
  await grip.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  const box = await grip.boundingBox();
  const along = (await grip.getAttribute("data-axis")) === "along";
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.evaluate(() => { bench.steps.length = 0; });
  for (let step = 1; step <= STEPS; step += 1) {
    // A wave with straight flanks, a little over a px a step.
    const way = (step * 1.3) % (4 * reach);
    const off = way < reach ? way : way < 3 * reach ? 2 * reach - way : way - 4 * reach;
    await page.mouse.move(along ? x + off : x, along ? y : y + off);
    await page.evaluate(() => new Promise((done) => bench.frame(() => setTimeout(done))));
  }
  const steps = await page.evaluate(() => bench.steps.splice(0));
  await page.keyboard.press("Escape");
  await page.mouse.up();
  // A step in which the hand did not yet count as dragging, or nothing changed, asks nothing of the engine.
  return steps.filter((step) => step.engine > 0);
}

async function opened(browser, url) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, offline: true });
  await context.addInitScript(watch);
  const page = await context.newPage();
  await page.goto(url);
  await page.waitForSelector("html[data-ready]");
  return page;
}

const folder = mkdtempSync(join(tmpdir(), "drag-"));
const browser = await chromium.launch({ executablePath: process.env.BROWSER, args: ["--no-sandbox", "--disable-gpu"] });
try {
  const file = join(folder, "page.html");
  execFileSync(process.env.GLUELINE ?? "glueline", ["page", lesson, "-o", file]);
  const url = pathToFileURL(file).href;
  console.log(`page file: ${statSync(file).size} bytes; load of the machine: ${loadavg()[0].toFixed(1)}`);

  const starts = [];
  for (let time = 0; time < 7; time += 1) {
    const page = await opened(browser, url);
    starts.push(await page.evaluate(async () => {
      await new Promise((done) => bench.frame(() => setTimeout(done)));
      const [paint] = performance.getEntriesByName("first-contentful-paint");
      return { ...bench.marks, paint: paint?.startTime ?? NaN };
    }));
    await page.context().close();
  }
  console.log(`\n${"opened from a file, ms".padEnd(34)}  median     p95     max`);
  row("first drawing in the page", starts, (start) => start.svg);
  row("first painting", starts, (start) => start.paint);
  row("answers", starts, (start) => start.ready);

  const page = await opened(browser, url);
  const all = [];
  console.log(`\n${"one step of a drag, script, ms".padEnd(34)}  median     p95     max`);
  for (const drag of DRAGS) {
    const steps = await dragged(page, drag);
    row(`${drag[0]} (${steps.length})`, steps);
    all.push(...steps);
  }
  row("all of them", all);
  row("  of it the engine", all, (step) => step.engine);
  row("layout afterwards", all, (step) => step.layout);
  row("script and layout", all, (step) => step.script + step.layout);

  const other = async (name, prepare) => {
    await page.evaluate(prepare);
    const steps = [];
    for (const drag of DRAGS.slice(0, 4)) steps.push(...(await dragged(page, drag)));
    row(name, steps);
    row("  with layout", steps, (step) => step.script + step.layout);
    return steps;
  };
  console.log(`\n${"the first four again, ms".padEnd(34)}  median     p95     max`);
  const plain = await other("as it is", () => {});
  const whole = await other("each drawing exchanged as a whole", () => {
    const { answer } = board;
    bench.restore = () => { board.answer = answer; };
    board.answer = (reply) => {
      if (!reply.done) return answer(reply);
      // What the drawings then are is made out aside, so that it can be given to the page as text.
      const began = performance.now();
      const nothing = { ...reply.done, pieces: [], fields: [], grips: [] };
      answer({ done: nothing });
      const whole = reply.done.drawings.map(([id]) => [id, document.getElementById(id).innerHTML]);
      bench.marks.aside += performance.now() - began;
      return answer({ done: { ...reply.done, drawings: [], pieces: [...reply.done.pieces, ...whole] } });
    };
  });
  const every = await other("every drawing, seen or not", () => {
    bench.restore();
    board.seen = () => null;
  });
  const ratio = (steps) => (median(steps.map((step) => step.script)) / median(plain.map((step) => step.script))).toFixed(2);
  console.log(`\nratio of the medians: as a whole ${ratio(whole)}, every drawing ${ratio(every)}`);
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}
