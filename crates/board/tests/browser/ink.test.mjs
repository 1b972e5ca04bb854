// Handwriting on the sheet, tried in a browser.
//
//   npm install playwright-core@1.65.1
//   PLAYWRIGHT=node_modules BROWSER=/usr/bin/chromium node --test ink.test.mjs
//
// The expected numbers are closed form (the way of the pointer is the test's own) unless a line says pinned.

import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { after, before, beforeEach, test } from "node:test";

const require = createRequire(resolve(process.env.PLAYWRIGHT ?? "node_modules", "here.js"));
const { chromium } = require("playwright-core");
const harness = new URL("ink-harness.html", import.meta.url).href;
let browser, context, page, pen, faults;

before(async () => {
  browser = await chromium.launch({ executablePath: process.env.BROWSER, args: ["--no-sandbox", "--disable-gpu"] });
});
after(() => browser.close());
beforeEach(async (t) => {
  await context?.close();
  context = await browser.newContext({ viewport: { width: 1280, height: 900 }, hasTouch: true });
  page = await context.newPage();
  faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  await page.goto(harness);
  pen = await context.newCDPSession(page);
  // The ink's bar stands open from here on, with nothing in the hand.
  await page.getByRole("button", { name: "Write" }).click();
  await page.keyboard.press("Escape");
});

const button = (name) => page.locator(".ink-bar").getByRole("button", { name, exact: true });
const scenes = () => page.evaluate(() => kept.ink.scenes);
const strokes = async (id = "scene-one") => (await scenes())[id]?.strokes ?? [];
const lastTold = () => page.evaluate(() => told.at(-1));
const top = (selector) => page.evaluate((it) => document.querySelector(it).getBoundingClientRect().top, selector);
const corner = async (id = "scene-one") => page.evaluate((it) => {
  const { left, top } = document.getElementById(it).getBoundingClientRect();
  return { left, top };
}, id);

/** Draws through points given from the corner of a scene. */
async function mouse(points, id) {
  const { left, top } = await corner(id);
  await page.mouse.move(left + points[0][0], top + points[0][1]);
  await page.mouse.down();
  for (const [x, y] of points.slice(1)) await page.mouse.move(left + x, top + y, { steps: 8 });
  await page.mouse.up();
}
/** The same with a pen; each point has its force. */
async function penned(points, id) {
  const { left, top } = await corner(id);
  const send = (type, [x, y, force], buttons) => pen.send("Input.dispatchMouseEvent", {
    type, x: left + x, y: top + y, button: type === "mouseMoved" && !buttons ? "none" : "left", buttons,
    clickCount: 1, pointerType: "pen", force,
  });
  await send("mousePressed", points[0], 1);
  for (const point of points.slice(1)) await send("mouseMoved", point, 1);
  await send("mouseReleased", points.at(-1), 0);
}
async function touched(points, id) {
  const { left, top } = await corner(id);
  const send = (type, list) => pen.send("Input.dispatchTouchEvent", { type, touchPoints: list.map(([x, y]) => ({ x, y })) });
  const all = points.map(([x, y]) => [left + x, top + y]);
  await send("touchStart", [all[0]]);
  for (const point of all.slice(1)) await send("touchMove", [point]);
  await send("touchEnd", []);
}
/** Where a stroke goes, back from what is kept, CSS px. */
function way({ points }) {
  const found = [];
  for (let i = 0, x = 0, y = 0; i < points.length; i += 3) found.push([(x += points[i] / 10), (y += points[i + 1] / 10), points[i + 2]]);
  return found;
}
/** The same, counted from the corner of the scene: the block's own corner is added. */
async function onScene(stroke, id = "scene-one") {
  const from = await page.evaluate(([name, scene]) => {
    const section = document.getElementById(scene);
    const [, room, place] = [name, name.startsWith("room/"), Number(name.split("/").at(-1))];
    const own = [...section.children].filter((it) => !it.matches("svg, .ink-note, .ink-gaps, .room"));
    const block = room ? section.querySelector(".room") : document.getElementById(name) ?? own[place];
    const [inner, outer] = [block.getBoundingClientRect(), section.getBoundingClientRect()];
    return [inner.left - outer.left, inner.top - outer.top];
  }, [stroke.on, id]);
  return way(stroke).map(([x, y, p]) => [x + from[0], y + from[1], p]);
}
const LINE = [[100, 200], [300, 220]];

test("its bar opens with the pen in the hand, and closes with none", async () => {
  await page.reload();
  const write = page.getByRole("button", { name: "Write" });
  assert.deepEqual([await page.locator(".ink-bar").isVisible(), await write.getAttribute("aria-expanded")], [false, "false"]);
  await write.click();
  assert.deepEqual([await button("Pen").getAttribute("aria-pressed"), await write.getAttribute("aria-expanded")], ["true", "true"]);
  await write.click();
  assert.equal(await page.locator(".ink-bar").isVisible(), false);
  await mouse(LINE);
  assert.deepEqual(await scenes(), {});
});

test("is off at first and lets the pointer through", async () => {
  for (const name of ["Pen", "Highlighter", "Eraser", "Make room"]) {
    assert.equal(await button(name).getAttribute("aria-pressed"), "false");
  }
  await mouse(LINE);
  assert.deepEqual(await scenes(), {});
  const hit = await page.evaluate(() => document.elementFromPoint(640, 300).closest("svg.ink"));
  assert.equal(hit, null);
  assert.deepEqual(faults, []);
});

test("the mouse draws a stroke that starts and ends where it did", async () => {
  await button("Pen").click();
  await mouse(LINE);
  const [stroke] = await strokes();
  assert.deepEqual([stroke.on, stroke.tool, stroke.ink, stroke.width], ["scene-one/3", "pen", 1, 10000]);
  const line = await onScene(stroke);
  assert.ok(Math.hypot(line[0][0] - 100, line[0][1] - 200) < 0.11, `${line[0]}`);
  assert.ok(Math.hypot(line.at(-1)[0] - 300, line.at(-1)[1] - 220) < 0.41, `${line.at(-1)}`);
  assert.ok(stroke.points.every(Number.isInteger));
  const box = await page.locator("svg.ink path.ink-pen").boundingBox();
  const { left, top } = await corner();
  assert.ok(Math.abs(box.x - left - 100) < 4 && Math.abs(box.y - top - 200) < 4 && Math.abs(box.width - 200) < 6);
  assert.equal(await page.locator("#scene-one .ink-note").textContent(), "handwriting: 1 stroke");
  assert.equal(await page.locator("#scene-one svg.ink").getAttribute("aria-hidden"), "true");
  assert.equal(await page.evaluate(() => changes), 1);
});

test("a pen that presses harder draws wider", async () => {
  await button("Pen").click();
  const run = (y, force) => Array.from({ length: 20 }, (_, i) => [100 + 10 * i, y, force]);
  await penned(run(180, 0.1));
  await penned(run(240, 0.9));
  const [light, heavy] = await strokes();
  const mean = (stroke) => way(stroke).reduce((sum, [, , p], _, all) => sum + p / all.length, 0);
  assert.ok(Math.abs(mean(light) - 25.5) < 2, `${mean(light)}`);
  assert.ok(Math.abs(mean(heavy) - 229.5) < 2, `${mean(heavy)}`);
  const heights = await page.locator("svg.ink path.ink-pen").evaluateAll((all) => all.map((it) => it.getBBox().height));
  assert.ok(heights[1] > 2 * heights[0], `${heights}`);
});

test("once a pen was seen, touch scrolls and does not draw", async () => {
  await button("Pen").click();
  await touched([[100, 200], [150, 200], [200, 200], [250, 200]]);
  assert.equal((await strokes()).length, 1);
  await penned([[100, 260, 0.5], [160, 260, 0.5], [220, 260, 0.5]]);
  assert.equal((await strokes()).length, 2);
  const before = await page.evaluate(() => scrollY);
  await touched([[300, 300], [300, 270], [300, 240], [300, 200]]);
  assert.equal((await strokes()).length, 2);
  assert.equal((await page.evaluate(() => scrollY)) - before, 100);
  await button("Pen").click();
  await button("Pen").click();
  await touched([[100, 220], [150, 220], [200, 220]]);
  assert.equal((await strokes()).length, 3, "a new session has seen no pen");
});

test("the eraser takes whole strokes, and only those it meets", async () => {
  await button("Pen").click();
  await mouse(LINE);
  await mouse([[100, 260], [300, 260]]);
  await button("Eraser").click();
  await mouse([[200, 180], [200, 235]]);
  const left = await strokes();
  assert.equal(left.length, 1);
  assert.ok(Math.abs((await onScene(left[0]))[0][1] - 260) < 0.11);
  assert.equal(await lastTold(), "1 stroke erased.");
});

test("undo and redo go by steps; Ctrl+Z is ink's only while ink is on", async () => {
  await button("Pen").click();
  await mouse(LINE);
  await mouse([[100, 260], [300, 260]]);
  await button("Undo ink").click();
  assert.equal((await strokes()).length, 1);
  await button("Redo ink").click();
  assert.equal((await strokes()).length, 2);
  await page.keyboard.press("Control+z");
  assert.equal((await strokes()).length, 1);
  await page.keyboard.press("Control+Shift+z");
  assert.equal((await strokes()).length, 2);
  await page.keyboard.press("Escape");
  assert.equal(await button("Pen").getAttribute("aria-pressed"), "false");
  await page.evaluate(() => addEventListener("keydown", (event) => (window.heard = event.key)));
  await page.keyboard.press("Control+z");
  assert.equal((await strokes()).length, 2);
  assert.equal(await page.evaluate(() => window.heard), "z");
});

test("clear asks first, in its place, and can be undone", async () => {
  await button("Pen").click();
  await mouse(LINE);
  await button("Clear").click();
  assert.equal((await strokes()).length, 1);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Keep it");
  await page.keyboard.press("Escape");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Clear");
  assert.equal(await button("Pen").getAttribute("aria-pressed"), "true");
  await button("Clear").click();
  await button("Yes, clear").click();
  assert.deepEqual(await scenes(), {});
  assert.equal(await page.locator("svg.ink path").count(), 0);
  await button("Undo ink").click();
  assert.equal((await strokes()).length, 1);
});

test("room is made between blocks, and ink below goes along with its block", async () => {
  await button("Pen").click();
  const last = "#scene-one > p:last-of-type:not(.ink-note), #scene-one > p:nth-of-type(3)";
  const { top: zero } = await corner();
  const y = (await top(last)) - zero + 14;
  await mouse([[20, y], [200, y]]);
  await mouse([[20, 20], [200, 20]]);
  const before = await top(last);
  await button("Make room").click();
  const { left, top: start } = await corner();
  const second = await page.locator("#scene-one > p").first().boundingBox();
  await page.mouse.click(left + 300, second.y + second.height + 6);
  const { rooms, strokes: moved } = (await scenes())["scene-one"];
  assert.deepEqual(rooms, [{ after: "scene-one/1", height: 200 }]);
  const by = (await top(last)) - before;
  assert.ok(by >= 199.9, `${by}`);
  assert.ok(Math.abs((await onScene(moved[0]))[0][1] - (y + by)) < 0.21);
  assert.ok(Math.abs((await onScene(moved[1]))[0][1] - 20) < 0.11);
  assert.equal(await button("Pen").getAttribute("aria-pressed"), "true", "what follows is writing");
  const room = page.locator(".room");
  await room.getByRole("button", { name: "Taller" }).click();
  assert.equal((await scenes())["scene-one"].rooms[0].height, 300);
  assert.ok(Math.abs((await onScene((await strokes())[0]))[0][1] - (y + by + 100)) < 0.21);
  await page.keyboard.press("ArrowUp");
  assert.equal((await scenes())["scene-one"].rooms[0].height, 280);
  await page.keyboard.press("ArrowDown");
  // Ink in the space keeps it from closing, and goes with it.
  const place = (await room.boundingBox()).y - start;
  await mouse([[300, place + 150], [500, place + 150]]);
  for (let i = 0; i < 5; i++) await room.getByRole("button", { name: "Shorter" }).click();
  const { height } = (await scenes())["scene-one"].rooms[0];
  assert.ok(Math.abs(height - 158) <= 1, `${height}`);
  await room.getByRole("button", { name: "Remove" }).click();
  assert.deepEqual((await scenes())["scene-one"].rooms, []);
  assert.ok(Math.abs((await top(last)) - before) < 0.1);
  assert.equal((await strokes()).length, 2);
  assert.ok(Math.abs((await onScene((await strokes())[0]))[0][1] - y) < 0.31);
  await button("Undo ink").click();
  assert.equal((await strokes()).length, 3);
  assert.equal(await room.count(), 1);
});

test("room is made by keyboard alone, after a block that has a name", async () => {
  await button("Pen").focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowRight");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Make room");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Make room here, after “The shear stress" }).focus();
  await page.keyboard.press("Enter");
  assert.deepEqual((await scenes())["scene-two"].rooms, [{ after: "two-first", height: 200 }]);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Taller");
  await page.keyboard.press("Delete");
  assert.deepEqual(await scenes(), {});
});

test("comes back after a reload, and when the board draws a scene anew", async () => {
  await button("Highlighter").click();
  await button("Blue, fine").click();
  await mouse(LINE);
  await button("Pen").click();
  await mouse([[50, 60], [200, 70]], "scene-two");
  await button("Make room").click();
  await page.locator("#scene-two .ink-gap").first().click();
  const kept = await scenes();
  const drawn = () => page.locator("svg.ink path").evaluateAll((all) => all.map((it) => it.getAttribute("d")));
  const forms = await drawn();
  await page.reload();
  assert.deepEqual(await scenes(), kept);
  assert.deepEqual(await drawn(), forms);
  assert.equal(await page.locator(".room").count(), 1);
  assert.equal(await page.locator("path.ink-highlighter[data-ink='2']").count(), 1);
  await page.evaluate(() => { document.getElementById("scene-one").innerHTML = "<p>Anew.</p>"; });
  await page.waitForSelector("#scene-one svg.ink path");
  assert.equal(await page.locator("#scene-one .ink-note").textContent(), "handwriting: 1 stroke");
  assert.deepEqual(faults, []);
});

test("stays on its block: above grows, the window narrows, the page prints", async () => {
  await button("Pen").click();
  await mouse([[100, 100], [500, 100]], "scene-two");
  const block = "#scene-two > div";
  const place = () => page.evaluate((it) => {
    const outer = document.querySelector(it).getBoundingClientRect(), inner = document.querySelector("#scene-two svg.ink path").getBoundingClientRect();
    return [inner.left - outer.left, inner.top + inner.height / 2 - outer.top, inner.width];
  }, block);
  const [x, y, long] = await place();
  await page.evaluate(() => { document.querySelector("#scene-one div").style.height = "500px"; });
  assert.deepEqual((await place()).map(Math.round), [x, y, long].map(Math.round));
  await page.setViewportSize({ width: 540, height: 900 }); // the block is 500 px wide, half of what it was
  assert.deepEqual((await place()).map(Math.round), [x / 2, y / 2, long / 2].map(Math.round));
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".ink-bar").isVisible(), false);
  assert.equal(await page.locator("#scene-two svg.ink path").isVisible(), true);
});

const sound = { on: "one-title", tool: "pen", ink: 1, width: 10000, points: [1000, 1000, 128, 50, 0, 128] };
const within = (parts) => ({ version: 1, scenes: { "scene-one": parts } });
for (const [what, ink, stay] of [
  ["a text", "<img src=x onerror=alert(1)>", 0],
  ["an array", [1, 2], 0],
  ["another version", { version: 9, scenes: {} }, 0],
  ["scenes that are a list", { version: 1, scenes: [] }, 0],
  ["a scene that is no scene", { version: 1, scenes: { "scene-x\"><script>": { strokes: [sound] }, "__proto__x": 1 } }, 0],
  ["strokes that are a text", within({ strokes: "many" }), 0],
  ["strokes among others", within({ strokes: [null, 7, "x", [], {}, sound] }), 1],
  ["a tool of another name", within({ strokes: [{ ...sound, tool: "\"><script>" }, sound] }), 1],
  ["an ink of another name", within({ strokes: [{ ...sound, ink: 5 }, { ...sound, ink: "1" }, sound] }), 1],
  ["numbers that are none", within({ strokes: [{ ...sound, points: [null, 1, 1] }, { ...sound, points: ["1", 1, 1] }, sound] }), 1],
  ["numbers out of reach", within({ strokes: [{ ...sound, points: [1e300, 1, 1] }, { ...sound, width: 0 }, sound] }), 1],
  ["a pressure out of reach", within({ strokes: [{ ...sound, points: [1, 1, 256] }, sound] }), 1],
  ["half a point", within({ strokes: [{ ...sound, points: [1, 1, 1, 1] }, sound] }), 1],
  ["a stroke too long", within({ strokes: [{ ...sound, points: Array(90000).fill(1) }, sound] }), 1],
  ["too many strokes", within({ strokes: Array(20001).fill(sound) }), 0],
  ["rooms of all sorts", within({ strokes: [sound], rooms: [{ after: "x", height: 1e9 }, { after: {}, height: 200 }, null, { after: 1, height: 200 }] }), 1],
]) {
  test(`leaves out what is not sound: ${what}`, async () => {
    await page.evaluate((it) => sessionStorage.setItem("kept", it), JSON.stringify({ ink }));
    await page.reload();
    assert.match(await lastTold(), /^\d+ parts? of the kept ink could not be read and w(as|ere) left out\. The page keeps/);
    assert.equal(await page.locator("svg.ink path").count(), stay);
    assert.equal(await page.locator("main img, main script, .room").count(), 0);
    await page.getByRole("button", { name: "Write" }).click();
    await mouse(LINE);
    assert.equal(await page.locator("svg.ink path").count(), stay + 1);
    assert.deepEqual(faults, []);
  });
}

test("values that JSON cannot hold are left out too", async () => {
  const count = await page.evaluate((stroke) => {
    const told = [];
    const strokes = [{ ...stroke, points: [NaN, 0, 0] }, { ...stroke, points: [0, Infinity, 0] }, { ...stroke, width: NaN }];
    const kept = { ink: { version: 1, scenes: { "scene-one": { strokes, rooms: [{ after: NaN, height: NaN }] } } } };
    ink({ sheet: document.getElementById("sheet"), bar: document.getElementById("bar"), tell: () => {}, say: (words) => told.push(words), kept, touched: () => {} });
    return [told, document.querySelectorAll("svg.ink path").length];
  }, sound);
  assert.deepEqual(count, [["4 parts of the kept ink could not be read and were left out. The page keeps what it had, untouched."], 0]);
});

test("takes no more than 2 MB", async () => {
  const long = { ...sound, points: [1000, 1000, 128, ...Array(19998).fill(0).map((_, i) => (i % 3 === 2 ? 128 : i % 2 ? 1 : -1))] };
  const size = JSON.stringify(long).length + 1;
  const most = Math.floor(2e6 / size);
  await page.evaluate((it) => sessionStorage.setItem("kept", it), JSON.stringify({ ink: within({ strokes: Array(most).fill(long) }) }));
  await page.reload();
  assert.equal((await strokes()).length, most);
  await page.evaluate((it) => sessionStorage.setItem("kept", it), JSON.stringify({ ink: within({ strokes: Array(most + 1).fill(long) }) }));
  await page.reload();
  assert.equal((await strokes()).length, most);
  assert.match(await lastTold(), /^1 part of/);
});

test("buttons are large enough and the toolbar is one stop", async () => {
  await button("Make room").click();
  await page.locator("#scene-two .ink-gap").first().click();
  await button("Make room").click();
  const small = await page.evaluate(() => [...document.querySelectorAll(".ink-bar button, .room button, .ink-gap")]
    .filter((it) => it.getClientRects().length)
    .filter((it) => it.getBoundingClientRect().width < 44 || it.getBoundingClientRect().height < 44).map((it) => it.textContent));
  assert.deepEqual(small, []);
  assert.equal(await page.locator(".ink-bar button[tabindex='0']").count(), 1);
  assert.equal(await page.locator(".ink-bar").getAttribute("role"), "toolbar");
});

test("the inks and labels have the contrast of WCAG 2.2 AA on either board", async () => {
  // WCAG 2.2, relative luminance and contrast ratio: 4.5 for text (1.4.3), 3 for strokes and edges (1.4.11).
  const ratios = () => page.evaluate(() => {
    const style = getComputedStyle(document.documentElement);
    const light = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
      .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
      .reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
    const get = (name) => style.getPropertyValue(name).trim();
    const paper = document.documentElement.dataset.board === "dark" ? "#14181f" : "#ffffff";
    const ratio = (a, b) => {
      const [x, y] = [light(a), light(b)].sort((p, q) => q - p);
      return (x + 0.05) / (y + 0.05);
    };
    return {
      text: [1, 2, 3, 4].map((i) => ratio(get(`--ink-${i}`), paper))
        .concat(ratio(get("--ink-bar-text"), get("--ink-bar")), ratio(get("--ink-bar-on-text"), get("--ink-bar-on"))),
      edges: [ratio(get("--ink-bar-edge"), get("--ink-bar")), ratio(get("--ink-focus"), get("--ink-bar"))],
    };
  });
  for (const dark of [false, true]) {
    await page.evaluate((it) => it && (document.documentElement.dataset.board = "dark"), dark);
    const { text, edges } = await ratios();
    for (const ratio of text) assert.ok(ratio >= 4.5, `${dark}: ${text}`);
    for (const ratio of edges) assert.ok(ratio >= 3, `${dark}: ${edges}`);
  }
});

test("a single stroke is erased by keys alone: picked, told, erased, and brought back", async () => {
  await button("Pen").click();
  await mouse([[40, 60], [160, 64]]);
  await button("Vermilion, bold").click();
  await mouse([[40, 100], [160, 104]]);
  await button("Highlighter").click();
  await mouse([[60, 40], [220, 44]], "scene-two");
  await page.keyboard.press("Escape");
  const three = await strokes();
  assert.equal(three.length, 2);
  await button("Pick a stroke").focus();
  await page.keyboard.press("Enter");
  const list = page.getByRole("listbox", { name: "Strokes" });
  assert.equal(await list.evaluate((it) => it === document.activeElement), true);
  const picked = () => list.getByRole("option", { selected: true }).textContent();
  const marked = () => page.locator(".ink-picked").count();
  assert.match(await picked(), /^Stroke 1 of 3: pen, plain, on: The beam and what it carries$/);
  assert.equal(await marked(), 1);
  await page.keyboard.press("ArrowRight");
  assert.match(await picked(), /^Stroke 2 of 3: pen, vermilion/);
  assert.match(await lastTold(), /^Stroke 2 of 3/);
  await page.keyboard.press("Delete");
  assert.deepEqual(await strokes(), [three[0]], "that one and no other");
  assert.match(await lastTold(), /^1 stroke erased\. Stroke 2 of 2: highlighter, vermilion, on: The stress over the depth\.$/);
  await page.keyboard.press("End");
  await page.keyboard.press("Delete");
  assert.equal((await strokes("scene-two")).length, 0);
  await page.keyboard.press("Delete");
  assert.equal((await strokes()).length, 0);
  assert.match(await lastTold(), /No stroke is left/);
  assert.equal(await list.isVisible(), false);
  assert.equal(await button("Pick a stroke").evaluate((it) => it === document.activeElement), true, "the focus goes back");
  await button("Undo ink").click();
  await button("Undo ink").click();
  await button("Undo ink").click();
  assert.deepEqual(await strokes(), three, "each was a step of undo");
  await button("Pick a stroke").press("Enter");
  await page.keyboard.press("Escape");
  assert.deepEqual([await list.isVisible(), await marked()], [false, 0]);
  assert.deepEqual(faults, []);
});
