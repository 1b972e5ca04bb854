// What the sheet looks like in the hall and in the hand: dark drawings, lettering for the last row, words for what is new, and
// nothing cut off on a phone.
//
// Expected contrast: WCAG 2.2, success criteria 1.4.3 (text, 4.5:1; large, 3:1), relative luminance and contrast ratio as it
// defines them. The size of letters for the last row is our own design: as large as those of the other scenes.

import assert from "node:assert/strict";
import { test } from "node:test";
import { button, frame, handle, onPage, over, pull } from "./real-page.mjs";

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };

/** Every text of every drawing with its contrast to the paper of its plate, the least first. */
const contrasts = (page) => page.evaluate(() => {
  const parts = (colour) => colour.match(/[\d.]+/g).slice(0, 3).map((part) => Number(part) / 255);
  const light = (colour) => {
    const [red, green, blue] = parts(colour).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05;
  };
  const found = [...document.querySelectorAll(".plate")].flatMap((plate) => {
    const paper = light(getComputedStyle(plate).backgroundColor);
    return [...plate.querySelectorAll("svg text")].map((text) => {
      const ink = light(getComputedStyle(text).fill);
      return [Math.max(ink, paper) / Math.min(ink, paper), `${plate.getAttribute("aria-label")}: ${text.textContent}`];
    });
  });
  return found.sort((one, other) => one[0] - other[0]);
});

test("on the dark board drawings have dark paper, and every letter stands out from it", () =>
  onPage({ lesson: "gangplank", colorScheme: "dark" }, async (page) => {
    const paper = () => page.evaluate(() => getComputedStyle(document.querySelector(".plate")).backgroundColor);
    assert.equal(await paper(), "rgb(20, 24, 31)"); // that of the board
    const found = await contrasts(page);
    assert.ok(found.length > 100);
    assert.ok(found[0][0] >= 4.5, `${found[0]}`);
    // No mark keeps the ink of white paper.
    const left = await page.evaluate(() => {
      const bright = (colour) => colour.match(/\d+/g)?.slice(0, 3).every((part) => Number(part) > 0xe8 - 0);
      return [...document.querySelectorAll(".plate svg :is(polygon, path, circle)[fill^='#']")]
        .filter((mark) => bright(getComputedStyle(mark).fill) && mark.getBoundingClientRect().width > 12).map((mark) => mark.outerHTML.slice(0, 80));
    });
    assert.deepEqual(left, []);
    await page.emulateMedia({ media: "print" });
    assert.equal((await contrasts(page))[0][0] >= 4.5, true, "printed on white paper");
    assert.equal(await page.evaluate(() => getComputedStyle(document.querySelector(".plate svg text")).fill), "rgb(27, 35, 48)");
  }));

/** The size of the smallest letters of a drawing, indices left out, px. */
const least = (page, drawing) => page.evaluate((drawing) => {
  const svg = document.querySelector(`#drawing-${drawing} svg`);
  const scale = svg.getScreenCTM().a;
  return Math.min(...[...svg.querySelectorAll("text")].map((text) => Number(text.getAttribute("font-size")) * scale));
}, drawing);

test("the point and the fields are lettered for the last row in the lecture and on the wall", () =>
  onPage({ lesson: "porch-beam", reducedMotion: "reduce" }, async (page) => {
    await button(page, "Lecture").click();
    for (let key = 0; key < 12; key += 1) await page.keyboard.press("End");
    await page.evaluate(() => board.sheet.querySelectorAll("[data-waiting]").forEach((part) => ["data-waiting", "hidden", "inert"].forEach((name) => part.removeAttribute(name))));
    const usual = await least(page, "trajectories");
    assert.ok(usual >= 16, `${usual}`);
    for (const drawing of ["point", "fields"]) assert.ok((await least(page, drawing)) >= usual - 0.5, `${drawing}: ${await least(page, drawing)} beside ${usual}`);
    await page.evaluate(() => { document.documentElement.dataset.view = "wall"; });
    await frame(page);
    for (const drawing of ["point", "fields"]) assert.ok((await least(page, drawing)) >= 20, `${drawing}: ${await least(page, drawing)}`);
  }));

test("stress at a point, the fields and the trajectories are told in words, and their symbols are explained", () =>
  onPage({ lesson: "porch-beam" }, async (page) => {
    const text = (id) => page.locator(`#${id}`).innerText();
    assert.match(await text("words-before-point"), /Two planes at right angles bear no shear stress/);
    assert.match(await text("words-before-fields"), /at 45°/);
    assert.match(await text("words-before-trajectories"), /a stress trajectory/);
    const told = await page.$$eval("#results-point .told", (all) => all.map((each) => [each.querySelector("p").innerText, each.querySelectorAll(".equation").length]));
    assert.ok(told.length >= 6);
    for (const [words, equations] of told) assert.ok(words.length > 40 && equations === 1, words);
    for (const name of ["largest principal stress at the cut", "direction of the largest principal stress at the cut", "mean normal stress at the cut"]) {
      assert.ok(told.some(([words]) => words.includes(name)), name);
    }
  }));

for (const lesson of ["lighting-bridge", "box-girder", "gangplank", "walkway"]) {
  test(`on a phone no equation is cut off: ${lesson}`, () =>
    onPage({ lesson, ...phone }, async (page) => {
      await frame(page);
      assert.ok((await over(page)) <= 0);
      const cut = await page.$$eval(".equation .formula", (all) => all.filter((each) => each.scrollWidth > each.clientWidth + 1)
        .map((each) => `${each.closest(".piece").id}: ${each.scrollWidth} of ${each.clientWidth}`));
      assert.deepEqual(cut, []);
      const small = await page.$$eval(".equation math", (all) => Math.min(...all.map((each) => parseFloat(getComputedStyle(each).fontSize))));
      assert.ok(small >= 10, `letters of ${small} px`);
      // After a drag everything fits again.
      await page.evaluate(() => board.set("slice.at", board.text.includes("ft") ? "3 ft" : "1.2345 m"));
      await frame(page);
      assert.deepEqual(await page.$$eval(".equation .formula", (all) => all.filter((each) => each.scrollWidth > each.clientWidth + 1).length), 0);
    }));
}

test("on a phone a crowded beam shows one handle of each load, and all of a load that is chosen", () =>
  onPage({ lesson: "lighting-bridge", ...phone }, async (page) => {
    const shown = () => page.$$eval(".plate[data-grips='drawing-beam-given'] .grip", (all) => all.filter((each) => each.checkVisibility()).map((each) => each.getAttribute("aria-label")));
    const before = await shown();
    assert.ok(before.length <= 16, `${before.length}: ${before}`);
    assert.ok(before.includes("winch: place") && !before.includes("winch: force"));
    await handle(page, "beam-given", "winch: place").focus();
    const after = await shown();
    assert.ok(after.includes("winch: force"), `${after}`);
    await page.keyboard.press("Tab");
    await handle(page, "beam-given", "lamps: place").focus();
    assert.ok(!(await shown()).includes("winch: force"));
  }));

test("the arrow of a force that is dragged is as long as the force is large, within bounds", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    const arrows = () => page.evaluate(() => [...document.querySelectorAll("#drawing-beam-given svg [id$='-forces'] line")].map((line) => Math.abs(line.getAttribute("y2") - line.getAttribute("y1"))));
    const grip = handle(page, "beam-given", "load 1: force = P_1");
    const size = async () => Number(await grip.getAttribute("aria-valuenow"));
    const [before, force] = [await arrows(), await size()];
    const longest = before.indexOf(Math.max(...before));
    await pull(page, grip, 0, 20);
    await frame(page);
    const [smaller, less] = [await arrows(), await size()];
    assert.ok(less < force && smaller[longest] < before[longest] - 10, `${before} to ${smaller}`);
    const other = before.findIndex((_, place) => place !== longest);
    assert.ok(Math.abs(smaller[other] - before[other]) < 0.05, "the other arrow stays as it is");
    await page.mouse.move(0, 0);
    await page.mouse.up();
    await page.keyboard.press("End");
    await frame(page);
    const most = Math.max(...(await arrows()));
    assert.ok(most <= 1.7 * before[longest], `${most}`);
  }));
