// Ink on the real page: written with mouse and pen, kept by a reload and by the saved page, and going along with what it
// stands on.

import assert from "node:assert/strict";
import { test } from "node:test";
import { button, field, frame, more, offered, onPage, over, ready, textOf } from "./real-page.mjs";

const strokes = (page) => page.evaluate(() => Object.values(board.kept.ink.scenes).flatMap((scene) => scene.strokes));
const drawn = (page) => page.locator("svg.ink path").count();
/** A place on the sheet, in the window, below the bars. */
async function at(page, selector) {
  const part = page.locator(selector).first();
  await part.evaluate((element) => element.scrollIntoView({ block: "center" }));
  const box = await part.boundingBox();
  return { x: box.x, y: Math.max(box.y, 200) };
}
async function mouse(page, box) {
  await page.mouse.move(box.x + 30, box.y + 20);
  await page.mouse.down();
  await page.mouse.move(box.x + 180, box.y + 30, { steps: 8 });
  await page.mouse.up();
}
async function pen(page, box, force) {
  const device = await page.context().newCDPSession(page);
  const send = (type, x, buttons) => device.send("Input.dispatchMouseEvent", {
    type, x: box.x + x, y: box.y + 24, button: "left", buttons, clickCount: 1, pointerType: "pen", force,
  });
  await send("mousePressed", 20, 1);
  for (let x = 30; x <= 200; x += 10) await send("mouseMoved", x, 1);
  await send("mouseReleased", 200, 0);
}
/** Where the ink lies from the beam that it stands on, as parts of the beam's length. */
const placed = (page) =>
  page.evaluate(() => {
    const [ink, beam] = ["#drawing-beam-given svg.ink path", "#beam-given-beam"].map((it) => document.querySelector(it).getBoundingClientRect());
    return [(ink.left - beam.left) / beam.width, (ink.bottom - beam.bottom) / beam.width, ink.width / beam.width];
  });
const alike = (one, other, what) => one.forEach((part, place) => assert.ok(Math.abs(part - other[place]) < 0.004, `${what}: ${one}, ${other}`));

test("mouse and pen write on a drawing, a formula and a heading; pressure is width; undo, erase", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Write").click();
    await mouse(page, await at(page, "#drawing-beam-given"));
    await mouse(page, await at(page, "#results-reactions"));
    await mouse(page, await at(page, "#h-slice"));
    assert.equal(await drawn(page), 3);
    await pen(page, await at(page, "#drawing-section"), 0.1);
    await pen(page, await at(page, "#drawing-depth"), 0.9);
    const press = (await strokes(page)).map(({ points }) => points.filter((_, place) => place % 3 === 2).reduce((sum, p) => sum + p, 0) / (points.length / 3));
    // Pressure is kept in 255ths.
    assert.ok(Math.abs(press[3] - 25.5) < 3 && Math.abs(press[4] - 229.5) < 3, `${press}`);
    await page.keyboard.press("Control+z");
    assert.equal(await drawn(page), 4);
    await page.locator(".ink-bar").getByRole("button", { name: "Eraser" }).click();
    const box = await at(page, "#h-slice");
    await page.mouse.move(box.x + 100, box.y - 5);
    await page.mouse.down();
    await page.mouse.move(box.x + 100, box.y + 60, { steps: 8 });
    await page.mouse.up();
    assert.equal(await drawn(page), 3);
    await button(page, "Write").click();
    assert.equal(await page.locator(".ink-bar").isVisible(), false);
    assert.equal(await drawn(page), 3, "the ink stays when the pen is put away");
    assert.ok((await over(page)) <= 0);
  }));

test("ink stays on its drawing while the lesson changes and the window narrows", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Write").click();
    await mouse(page, await at(page, "#drawing-beam-given"));
    const first = await placed(page);
    await button(page, "Write").click();
    await field(page, "values.P_1").fill("20 kN");
    await field(page, "values.P_1").press("Enter");
    await frame(page);
    alike(await placed(page), first, "another load");
    await field(page, "beam.length").fill("6 m");
    await field(page, "beam.length").press("Enter");
    await frame(page);
    assert.equal(await drawn(page), 1);
    await page.keyboard.press("Escape");
    await page.evaluate(() => document.activeElement.blur());
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await page.setViewportSize({ width: 700, height: 700 });
    await frame(page);
    alike(await placed(page), first, "a narrower window");
  }));

test("ink and writing space are kept by a reload and by the saved page, which can be saved again", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Write").click();
    await mouse(page, await at(page, "#drawing-beam-given"));
    await page.locator(".ink-bar").getByRole("button", { name: "Make room" }).click();
    await page.locator("#scene-slice .ink-gap").first().focus();
    await page.keyboard.press("Enter");
    assert.equal(await page.locator(".room").count(), 1);
    await button(page, "Write").click();
    await field(page, "slice.at").fill("1.5 m");
    await field(page, "slice.at").press("Enter");
    const [ink, place] = [await strokes(page), await placed(page)];
    await page.waitForTimeout(300);
    await page.reload();
    await ready(page);
    const same = async (tab, what) => {
      assert.deepEqual(await strokes(tab), ink, what);
      assert.deepEqual([await drawn(tab), await tab.locator(".room").count()], [1, 1], what);
      assert.match(await textOf(tab), /at = "1\.5 m"/);
      alike(await placed(tab), place, what);
      assert.equal(await tab.locator(".ink-bar").count(), 1, what);
      assert.equal(await tab.locator(".ink-bar").isVisible(), false, what);
    };
    await same(page, "reload");
    const first = await offered(page, () => more(page, "Save this page"));
    await onPage({ file: first.file }, async (second) => {
      await same(second, "saved");
      const again = await offered(second, () => more(second, "Save this page"));
      await onPage({ file: again.file }, async (third) => {
        await same(third, "saved again");
        await button(third, "Write").click();
        await mouse(third, await at(third, "#drawing-depth"));
        assert.equal(await drawn(third), 2);
      });
    });
  }));

test("a saved page does not give what was written or typed to the next reader's undo", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Write").click();
    await mouse(page, await at(page, "#drawing-beam-given"));
    const saved = await offered(page, () => more(page, "Save this page"));
    await onPage({ file: saved.file }, async (other) => {
      assert.equal(await button(other, "Undo").isDisabled(), true);
      assert.equal(await drawn(other), 1);
    });
  }));

test("ink is printed, its tools are not", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Write").click();
    await mouse(page, await at(page, "#drawing-beam-given"));
    await page.emulateMedia({ media: "print" });
    assert.equal(await page.locator("svg.ink path").first().isVisible(), true);
    assert.equal(await page.locator(".ink-bar").isVisible(), false);
  }));
