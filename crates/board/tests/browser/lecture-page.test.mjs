// The lecture on the real page: revealed step by step, questions first, any scene, the wall.

import assert from "node:assert/strict";
import { test } from "node:test";
import { button, frame, handle, near, offered, onPage, over, pull, ready, textOf, value } from "./real-page.mjs";

/** The visible steps of the visible scenes: "beam 2 of 3"; "?" for each question. */
const open = (page) =>
  page.evaluate(() => [...document.querySelectorAll(".scene")].filter((scene) => scene.checkVisibility()).map((scene) => {
    const steps = [...scene.querySelectorAll(".step")];
    const asked = [...scene.querySelectorAll(".predict")].filter((card) => card.checkVisibility()).length;
    return `${scene.id.slice(6)} ${steps.filter((step) => step.checkVisibility()).length} of ${steps.length}${"?".repeat(asked)}`;
  }));
const press = async (page, ...keys) => {
  for (const key of keys) await page.keyboard.press(key);
};
const scenes = (page) => page.$$eval(".scene", (all) => all.map((scene) => scene.id.slice(6)));

test("arrow keys reveal every step of the sheet, one at a time, and take it back", () =>
  onPage({ lesson: "overhang", reducedMotion: "reduce" }, async (page) => {
    const whole = await open(page);
    const total = await page.locator(".step").count();
    await button(page, "Lecture").click();
    const shown = () => page.evaluate(() => [...document.querySelectorAll(".step")].filter((step) => step.checkVisibility()).length);
    assert.equal(await shown(), 1);
    for (let step = 2; step <= total; step += 1) {
      // What the window cuts off comes first: a few presses more.
      for (let more = 0; more < 12 && (await shown()) < step; more += 1) await press(page, step % 2 ? "ArrowRight" : "PageDown");
      assert.equal(await shown(), step);
      assert.ok((await over(page)) <= 0);
      const newest = await page.evaluate(() => [...document.querySelectorAll(".step")].filter((part) => part.checkVisibility()).at(-1).getBoundingClientRect().top);
      assert.ok(newest < 720, `step ${step} is in sight: ${newest}`);
    }
    assert.deepEqual(await open(page), whole);
    for (let more = 0; more < 24 && (await shown()) > total - 2; more += 1) await press(page, "ArrowLeft");
    assert.equal(await shown(), total - 2);
  }));

/** Notes what of each block has been in sight so far, as stretches of its height, and hands over what was not. */
const look = (page, done) =>
  page.evaluate((done) => {
    const blocks = "#sheet :is(.plate, .fields, .equation, p, li, tr, h2, h3, .predict)";
    window.looked ??= new Map();
    const cover = document.getElementById("bar").getBoundingClientRect().bottom;
    for (const part of document.querySelectorAll(blocks)) {
      if (!part.checkVisibility() || part.closest("details:not([open]), svg, .grips")) continue;
      const box = part.getBoundingClientRect();
      if (!looked.has(part)) looked.set(part, { seen: [], height: box.height });
      const [from, to] = [Math.max(cover, box.top) - box.top, Math.min(innerHeight, box.bottom) - box.top];
      if (to > from) looked.get(part).seen.push([from, to]);
    }
    if (!done) return [scrollY];
    return [...looked].flatMap(([part, { seen, height }]) => {
      let reached = 6; // the room around letters
      for (const [from, to] of seen.sort((one, other) => one[0] - other[0])) if (from <= reached) reached = Math.max(reached, to);
      return height > 0 && reached < height - 7 ? [`${part.closest(".scene").id} ${part.localName}.${part.className} ${part.id}: ${Math.round(reached)} of ${Math.round(height)}`] : [];
    });
  }, done);

for (const lesson of ["porch-beam", "lighting-bridge"]) {
  for (const size of [{ width: 1280, height: 720 }, { width: 390, height: 844 }]) {
    test(`Next passes nothing unseen, and Back goes the same way: ${lesson}, ${size.width} by ${size.height}`, () =>
      onPage({ lesson, viewport: size, reducedMotion: "reduce" }, async (page) => {
        await button(page, "Lecture").click();
        await press(page, "Home");
        const total = await page.locator(".step").count();
        const shown = () => page.evaluate(() => [...document.querySelectorAll(".step")].filter((step) => step.checkVisibility()).length);
        for (const [key, end] of [["ArrowRight", total], ["ArrowLeft", 1]]) {
          await page.evaluate(() => (window.looked = undefined));
          let [[before], steps, still] = [await look(page, false), await shown(), 0];
          for (let presses = 0; presses < 500 && still < 2; presses += 1) {
            await press(page, key);
            const [[now], open] = [await look(page, false), await shown()];
            if (open === steps) assert.ok(Math.abs(now - before) < size.height, `${before} to ${now}`);
            still = open === steps && now === before ? still + 1 : 0;
            [before, steps] = [now, open];
          }
          assert.equal(steps, end);
          assert.deepEqual(await look(page, true), [], key);
        }
      }));
  }
}

test("what waits follows all the same: a load is changed before its answer is shown", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Lecture").click();
    await press(page, "ArrowRight");
    await pull(page, handle(page, "beam-given", "load 1: place"), -60, 0);
    await page.mouse.up();
    const at = Number(await handle(page, "beam-given", "load 1: place").getAttribute("aria-valuenow"));
    assert.ok(at < 2);
    await page.evaluate(() => document.activeElement.blur());
    await press(page, "ArrowRight", "ArrowRight");
    const words = await page.locator("#results-reactions").textContent();
    assert.match(words, new RegExp(((12.5 * (4 - at) - 5) / 4).toFixed(2).replace(".", "\\."))); // closed form: moments about B
    near(await value(page, "reaction at A"), (12500 * (4 - at) - 5000) / 4);
  }));

test("arrow keys on a handle move the handle, not the lecture", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await button(page, "Lecture").click();
    await press(page, "End");
    const before = await open(page);
    await handle(page, "beam-given", "load 1: place").focus();
    await press(page, "ArrowRight", "PageUp", "End");
    assert.deepEqual(await open(page), before);
  }));

test("predict first hides the answer behind its question, and reveals it", () =>
  onPage({ lesson: "overhang", reducedMotion: "reduce" }, async (page) => {
    await button(page, "Predict first").click();
    const asked = await open(page);
    assert.ok(asked.filter((scene) => scene.includes("?")).length >= 5, `${asked}`);
    const tree = () => page.locator("#sheet").ariaSnapshot();
    assert.match(await tree(), /Which support carries more\?/);
    // The drawing before the question keeps the reactions back.
    assert.equal(await page.locator("#drawing-beam-given svg text", { hasText: "R" }).count(), 0);
    assert.equal(await page.locator("#results-reactions").isVisible(), false);
    assert.doesNotMatch(await tree(), /reaction at A is/);
    await page.locator("#scene-beam .predict button").click();
    assert.equal(await page.locator("#results-reactions").isVisible(), true);
    assert.equal(await page.locator("#scene-beam .predict").count(), 0);
    await button(page, "Lecture").click();
    await press(page, "g", "2");
    assert.match((await open(page)).find((scene) => scene.startsWith("diagrams")), /\?$/);
    await press(page, "ArrowRight");
    assert.equal(await page.locator("#drawing-diagrams").isVisible(), true);
  }));

test("a revealed drawing has its handles, and they can be dragged", () =>
  onPage({ lesson: "overhang", reducedMotion: "reduce" }, async (page) => {
    await button(page, "Predict first").click();
    await page.locator("#scene-diagrams .predict button").click();
    await frame(page);
    const station = handle(page, "diagrams", "position of the slice");
    await pull(page, station, 30, 0);
    await page.mouse.up();
    const x = Number(await station.getAttribute("aria-valuenow"));
    assert.ok(x > 1);
    near(await value(page, "bending moment at the slice"), 5000 * x);
  }));

test("any scene is reached from the list and by its digit", () =>
  onPage({ lesson: "overhang", reducedMotion: "reduce" }, async (page) => {
    const all = await scenes(page);
    await press(page, "g");
    const list = page.getByRole("dialog", { name: "Scenes" });
    assert.equal(await list.getByRole("navigation").getByRole("button").count(), all.length);
    await press(page, "6");
    await frame(page);
    assert.equal(await page.evaluate(() => document.activeElement.id), `h-${all[5]}`);
    const top = await page.evaluate((id) => document.getElementById(id).getBoundingClientRect().top, `h-${all[5]}`);
    const bar = await page.evaluate(() => document.getElementById("bar").getBoundingClientRect().bottom);
    assert.ok(top >= bar - 1 && top < 300, `${top} beneath ${bar}`);
  }));

test("the view for the wall shows one scene, as wide as the wall, at both sizes", async () => {
  for (const viewport of [{ width: 1280, height: 720 }, { width: 1920, height: 1080 }]) {
    await onPage({ lesson: "lighting-bridge", viewport, reducedMotion: "reduce" }, async (page) => {
      const all = await scenes(page);
      await button(page, "Full screen").click();
      for (const name of all) {
        assert.deepEqual((await open(page)).map((scene) => scene.split(" ")[0]), [name]);
        assert.ok((await over(page)) <= 0, name);
        // What the wall cuts off comes first.
        const isShown = () => page.locator(`#scene-${name}`).isVisible();
        for (let more = 0; name !== all.at(-1) && more < 40 && (await isShown()); more += 1) await press(page, "ArrowRight");
      }
      await press(page, "Escape");
      await page.evaluate(() => document.fullscreenElement && document.exitFullscreen());
      await page.waitForFunction(() => !document.documentElement.dataset.view);
      assert.equal((await open(page)).length, all.length);
    });
  }
});

test("the lecture goes on after a reload and in a saved page", () =>
  onPage({ lesson: "overhang", reducedMotion: "reduce" }, async (page) => {
    await button(page, "Lecture").click();
    await press(page, "ArrowRight", "ArrowRight");
    const before = await open(page);
    await page.waitForFunction(() => sessionStorage.length > 0);
    await page.waitForTimeout(300);
    await page.reload();
    await ready(page);
    assert.deepEqual(await open(page), before);
    await button(page, "More").click();
    const saved = await offered(page, () => button(page, "Save this page").click());
    await onPage({ file: saved.file }, async (other) => {
      assert.deepEqual(await open(other), before);
      assert.equal(await other.locator(".lecture-tools").count(), 1);
      assert.equal(await textOf(other), await textOf(page));
    });
  }));
