// What can be dragged, in a browser, on a sheet of its own with a small engine in place of the real one
// (grips-harness.html).
//
//   PLAYWRIGHT=path/to/node_modules BROWSER=path/to/chromium node --test grips.test.mjs
//
// Expected from outside: WCAG 2.2, success criteria 2.5.8 (targets of 24 px), 2.5.7 (a way without dragging), 2.1.1
// (keys), 1.4.11 (3:1 for marks), 1.4.4 (zoom 200 %); WAI-ARIA 1.2, role slider. The positions follow in closed form from
// the engine's scale: 80 px of the drawing to a metre, 200 N to a px. The rest is our own design.

import assert from "node:assert/strict";
import { test } from "node:test";
import { browser, frame, pullFrom } from "./browser.mjs";

const harness = new URL("grips-harness.html", import.meta.url).href;

/** Opens the sheet with a lesson, hands over the page, and holds it to a silent console: the policy is kept as well. */
async function onSheet({ lesson = { from: 4 }, width = 1000, height = 800, ...look } = {}, act) {
  const context = await browser.newContext({ viewport: { width, height }, ...look });
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  await page.goto(`${harness}#${encodeURIComponent(JSON.stringify(lesson))}`);
  try {
    await act(page);
    assert.deepEqual(faults, []);
  } finally {
    await context.close();
  }
}

const handle = (page, name) => page.getByRole("slider", { name, exact: true });
const place = (page) => handle(page, "load 1: at");
const force = (page) => handle(page, "load 1: force");
const text = (slider) => slider.getAttribute("aria-valuetext");
const lesson = (page) => page.evaluate(() => JSON.parse(board.text));
const steps = (page) => page.evaluate(() => steps);
const said = (page) => page.evaluate(() => said.splice(0));
const message = (page) => page.evaluate(() => document.getElementById("message").hidden ? "" : document.getElementById("message").textContent);
const dragOrders = (page) => page.evaluate(() => orders.splice(0).filter((order) => order.do === "drag"));
const focus = (page) => page.evaluate(() => document.activeElement.getAttribute("aria-label") ?? document.activeElement.tagName);
const centre = async (slider) => {
  const box = await slider.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
};
/** px of the window to a px of the drawing. */
const scaleOf = (page) => page.evaluate(() => document.querySelector("#drawing-beam svg").getScreenCTM().a);
/** Where a point of a drawing lies in the window. */
const spot = (page, id, at) =>
  page.evaluate(([id, at]) => {
    const { x, y } = new DOMPoint(...at).matrixTransform(document.querySelector(`#${id} svg`).getScreenCTM());
    return [x, y];
  }, [id, at]);
const close = (actual, expected, within, what) =>
  assert.ok(actual.every((value, index) => Math.abs(value - expected[index]) <= within), `${what ?? ""} ${actual}, expected ${expected}`);
/** Presses the mouse on a handle and takes it along by so many px of the window; it stays pressed. */
const pull = async (page, slider, right, down) => pullFrom(page, await centre(slider), right, down);

test("each handle is a slider that says what it is, where it is and how far it goes", () =>
  onSheet({}, async (page) => {
    assert.equal(await page.getByRole("slider").count(), 4);
    for (const [slider, wanted] of [
      [place(page), ["horizontal", "0", "6", "1.5", "1.5 m"]],
      [force(page), ["vertical", "0", "30000", "12000", "12 kN"]],
    ]) {
      const names = ["aria-orientation", "aria-valuemin", "aria-valuemax", "aria-valuenow", "aria-valuetext"];
      assert.deepEqual(await slider.evaluate((element, names) => names.map((name) => element.getAttribute(name)), names), wanted);
    }
    const cursors = await page.$$eval(".grip", (all) => all.slice(0, 2).map((element) => getComputedStyle(element).cursor));
    assert.deepEqual(cursors, ["ew-resize", "ns-resize"]);
    assert.equal(await page.evaluate(() => document.querySelectorAll("#sheet .piece .grip").length), 0);
    close(await centre(place(page)), await spot(page, "drawing-beam", [180, 150]), 0.6);
    close(await centre(force(page)), await spot(page, "drawing-beam", [180, 90]), 0.6);
    assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll(".plate")].map((plate) => plate.scrollWidth - plate.clientWidth)), [0, 0]);
  }));

test("the mouse drags along, and the drag is one step of undo", () =>
  onSheet({}, async (page) => {
    const scale = await scaleOf(page);
    await pull(page, place(page), 80 * scale, 30);
    assert.equal(await text(place(page)), "2.5 m");
    assert.equal(await steps(page), 0, "nothing is for good while it is dragged");
    assert.match(await page.locator(".grip-tag").innerText(), /load 1: at 2\.5 m/);
    await page.mouse.up();
    assert.equal(await steps(page), 1);
    assert.deepEqual(await said(page), ["load 1: at 2.5 m"]);
    close(await centre(place(page)), await spot(page, "drawing-beam", [260, 150]), 0.6);
    await page.click("#undo");
    assert.equal(await text(place(page)), "1.5 m");
    assert.equal(await page.locator("#undo").isDisabled(), true);
    await page.click("#redo");
    assert.equal(await text(place(page)), "2.5 m");
  }));

test("up is up, and a handle of the other sense follows the hand too", async () => {
  for (const [upward, wanted] of [[false, "17 kN"], [true, "7 kN"]]) {
    await onSheet({ lesson: { from: 4, upward } }, async (page) => {
      await pull(page, force(page), 0, -25 * (await scaleOf(page)));
      await page.mouse.up();
      assert.equal(await text(force(page)), wanted);
      await page.keyboard.press("ArrowDown");
      assert.equal(await text(force(page)), upward ? "7.5 kN" : "16.5 kN");
    });
  }
});

test("a drag comes to rest at a stop, and with Shift it does not", () =>
  onSheet({}, async (page) => {
    const scale = await scaleOf(page);
    await pull(page, place(page), 45 * scale, 0); // 2.0625 m, within 7 px of 2.01 m
    assert.equal(await text(place(page)), "2.01 m, at joint 1");
    await page.keyboard.down("Shift");
    const [x, y] = await spot(page, "drawing-beam", [180 + 45.2, 150]);
    await page.mouse.move(x, y);
    await frame(page);
    assert.equal(await text(place(page)), "2.065 m");
    await page.mouse.up();
    await page.keyboard.up("Shift");
    assert.equal(await steps(page), 1);
  }));

test("at most one order a frame, the last position counts, and the ends hold", () =>
  onSheet({}, async (page) => {
    const [x, y] = await centre(place(page));
    await page.mouse.move(x, y);
    await page.mouse.down();
    await dragOrders(page);
    const counts = await page.evaluate(([x, y]) => {
      const slider = document.querySelector(".grip");
      const fire = (kind, x) => slider.dispatchEvent(new PointerEvent(kind, { bubbles: true, pointerId: 1, clientX: x, clientY: y, isPrimary: true }));
      for (let px = 1; px <= 50; px += 1) fire("pointermove", x + px);
      const before = orders.length;
      fire("pointerup", x + 50);
      return [before, orders.filter((order) => order.do === "drag").length, orders.at(-1).do];
    }, [x, y]);
    assert.deepEqual(counts, [0, 1, "take"]);
    await page.mouse.up();
    assert.equal(await steps(page), 1);
    await pull(page, place(page), 2000, 0);
    await page.mouse.up();
    assert.equal(await text(place(page)), "6 m, at support B");
  }));

test("Escape and a drag that is broken off leave nothing behind", () =>
  onSheet({}, async (page) => {
    await pull(page, place(page), 90, 0);
    assert.notEqual(await text(place(page)), "1.5 m");
    await page.keyboard.press("Escape");
    assert.equal(await text(place(page)), "1.5 m");
    await page.mouse.move(500, 300);
    await page.mouse.up();
    assert.equal(await text(place(page)), "1.5 m");
    await pull(page, place(page), 90, 0);
    await place(page).dispatchEvent("pointercancel", { pointerId: 1, bubbles: true });
    await page.mouse.up();
    assert.equal(await text(place(page)), "1.5 m");
    assert.equal(await steps(page), 0);
    assert.equal(await message(page), "");
    assert.deepEqual(await said(page), Array(2).fill("load 1: at back at 1.5 m"));
    assert.equal(await page.locator("[data-held]").count(), 0);
    assert.equal(await focus(page), "load 1: at");
  }));

test("a refused value leaves the handle at the last good place and says why", () =>
  onSheet({}, async (page) => {
    const scale = await scaleOf(page);
    await pull(page, force(page), 0, -30 * scale);
    assert.equal(await text(force(page)), "18 kN");
    const [x, y] = await spot(page, "drawing-beam", [180, 20]);
    await page.mouse.move(x, y);
    await frame(page);
    assert.equal(await text(force(page)), "18 kN");
    assert.equal(await message(page), "the force is larger than 20 kN");
    await page.mouse.up();
    assert.equal((await lesson(page)).size, 18000);
    assert.equal(await steps(page), 1);
    assert.equal(await message(page), "the force is larger than 20 kN");
    assert.deepEqual(await said(page), ["load 1: force 18 kN. the force is larger than 20 kN"]);
    await page.keyboard.press("ArrowDown");
    assert.equal(await message(page), "");
    await page.keyboard.press("End");
    assert.equal(await message(page), "the force is larger than 20 kN");
    assert.equal(await text(force(page)), "17.5 kN");
  }));

test("every key of a slider does its part, and a run of keys is one step of undo", () =>
  onSheet({}, async (page) => {
    await place(page).focus();
    for (const [key, wanted] of [
      ["ArrowRight", "1.55 m"], ["ArrowUp", "1.6 m"], ["ArrowLeft", "1.55 m"], ["ArrowDown", "1.5 m"],
      ["Shift+ArrowRight", "1.505 m"], ["Shift+ArrowLeft", "1.5 m"], ["Shift+ArrowUp", "1.505 m"], ["ArrowRight", "1.55 m"],
      ["PageUp", "2.05 m"], ["PageDown", "1.55 m"], ["n", "2.01 m, at joint 1"], ["ArrowRight", "2.05 m"],
      ["Shift+N", "2.01 m, at joint 1"], ["n", "6 m, at support B"], ["Home", "0 m, at support A"], ["End", "6 m, at support B"],
    ]) {
      await page.keyboard.press(key);
      assert.equal(await text(place(page)), wanted, key);
    }
    assert.equal(await focus(page), "load 1: at");
    assert.equal(await page.evaluate(() => scrollY), 0);
    assert.equal(await steps(page), 0);
    await page.waitForFunction(() => steps === 1, null, { timeout: 2000 });
    assert.deepEqual(await said(page), ["load 1: at 6 m, at support B"]);
    await page.keyboard.press("n");
    assert.deepEqual(await said(page), ["There is no further place of rest."]);
    await page.keyboard.press("Control+z");
    assert.equal(await text(place(page)), "1.5 m");
    assert.equal(await focus(page), "load 1: at");
  }));

test("a run of keys ends when the handle is left, when it is undone, and by Escape", () =>
  onSheet({}, async (page) => {
    await place(page).focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Tab");
    assert.equal(await steps(page), 1);
    assert.equal(await focus(page), "load 1: force");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Control+z");
    assert.deepEqual([await text(force(page)), await text(place(page))], ["12 kN", "1.55 m"]);
    await page.keyboard.press("ArrowUp");
    await page.click("#undo");
    assert.deepEqual([await text(force(page)), await text(place(page))], ["12 kN", "1.55 m"]);
    await force(page).focus();
    const before = await steps(page);
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Escape");
    await page.waitForTimeout(700);
    assert.equal(await text(force(page)), "12 kN");
    assert.equal(await steps(page), before);
  }));

test("an exact value is typed", () =>
  onSheet({}, async (page) => {
    const box = page.locator(".grip-entry");
    for (const key of ["Enter", "F2"]) {
      await place(page).focus();
      await page.keyboard.press(key);
      assert.equal(await box.inputValue(), key === "Enter" ? "1.5 m" : "2.345 m");
      assert.equal(await box.getAttribute("aria-label"), "load 1: at");
      await page.keyboard.type(key === "Enter" ? "2.345 m" : "3.1 m");
      await page.keyboard.press("Enter");
      assert.equal(await box.count(), 0);
      assert.equal(await focus(page), "load 1: at");
    }
    assert.equal(await text(place(page)), "3.1 m");
    assert.equal(await steps(page), 2);
    assert.deepEqual(await said(page), ["load 1: at 2.345 m", "load 1: at 3.1 m"]);
    await page.keyboard.press("Enter");
    await page.keyboard.type("far away");
    await page.keyboard.press("Enter");
    assert.equal(await box.getAttribute("aria-invalid"), "true");
    assert.equal(await message(page), '"far away" is no quantity');
    await page.keyboard.press("Escape");
    assert.deepEqual([await box.count(), await focus(page), await message(page)], [0, "load 1: at", ""]);
    await page.keyboard.press("Enter");
    await page.keyboard.type("2 m");
    await page.keyboard.press("Tab");
    assert.deepEqual([await box.count(), await text(place(page))], [0, "2 m"]);
    assert.equal(await steps(page), 3);
  }));

test("a click only takes the focus, a double click opens the box", () =>
  onSheet({}, async (page) => {
    const [x, y] = await centre(place(page));
    await page.mouse.click(x, y);
    assert.deepEqual([await focus(page), await page.locator(".grip-entry").count()], ["load 1: at", 0]);
    await page.waitForTimeout(600);
    await page.mouse.dblclick(x, y);
    assert.equal(await page.locator(".grip-entry").count(), 1);
    assert.equal(await page.evaluate(() => document.activeElement.className), "grip-entry");
    assert.equal(await dragOrders(page).then((all) => all.length), 0);
    assert.equal(await steps(page), 0);
  }));

test("elements stay while their handle does, and the focus outlives an exchange of the sheet", () =>
  onSheet({}, async (page) => {
    await place(page).focus();
    await page.evaluate(() => { window.first = document.activeElement; window.oldPlate = document.querySelector(".plate"); });
    await page.keyboard.press("End"); // beyond 4 m the sheet has another plan
    assert.deepEqual(await page.evaluate(() => [oldPlate.isConnected, first.isConnected, document.activeElement === first]), [false, true, true]);
    assert.equal(await steps(page), 0, "the exchange did not end the run of keys");
    close(await centre(place(page)), await spot(page, "drawing-beam", [540, 150]), 0.6);
    await page.keyboard.press("ArrowLeft");
    assert.equal(await text(place(page)), "5.95 m");
    assert.equal(await page.locator(".grips").count(), 2);
    await page.waitForFunction(() => steps === 1);
    assert.equal(await page.evaluate(() => document.activeElement === first), true);
  }));

test("a drag goes on through an exchange of the sheet", () =>
  onSheet({}, async (page) => {
    const scale = await scaleOf(page);
    await pull(page, place(page), 240 * scale, 0);
    assert.equal(await text(place(page)), "4.5 m");
    const [x, y] = await spot(page, "drawing-beam", [60 + 5 * 80, 150]);
    await page.mouse.move(x, y);
    await frame(page);
    assert.equal(await text(place(page)), "5 m");
    await page.mouse.up();
    assert.equal(await steps(page), 1);
    assert.equal(await focus(page), "load 1: at");
  }));

test("a handle that goes takes nothing along, and the focus goes to its drawing", () =>
  onSheet({}, async (page) => {
    await handle(page, "load 2: from").focus();
    await page.evaluate(() => board.replace(JSON.stringify({ ...JSON.parse(board.text), from: -1 })));
    assert.equal(await page.getByRole("slider").count(), 3);
    assert.equal(await focus(page), "beam");
    await page.click("#undo");
    assert.equal(await page.getByRole("slider").count(), 4);
  }));

test("a drawing that rescales under the hand does not run away", () =>
  onSheet({}, async (page) => {
    const rod = handle(page, "rod: length");
    await rod.scrollIntoViewIfNeeded();
    // The drawing is broader, and so smaller in the window, the longer the rod: at first it has 460 px for 1 m.
    const scale = await page.evaluate(() => document.querySelector("#drawing-rod svg").getScreenCTM().a);
    const [x, y] = await centre(rod);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (const [px, wanted] of [[75, "1.25 m"], [150, "1.5 m"], [153, "1.5 m"], [150, "1.5 m"], [300, "2 m"], [0, "1 m"], [150, "1.5 m"]]) {
      await page.mouse.move(x + px * scale, y);
      await frame(page);
      assert.equal(await text(rod), wanted, `${px} px`);
    }
    await page.mouse.up();
    close(await centre(rod), await spot(page, "drawing-rod", [360, 40]), 0.6);
  }));

test("handles follow their drawing through a narrower window, scrolling and a plate that scrolls", () =>
  onSheet({}, async (page) => {
    const fits = async (what) => close(await centre(place(page)), await spot(page, "drawing-beam", [180, 150]), 0.8, what);
    for (const [width, height] of [[500, 800], [320, 600], [1400, 300], [500, 400]]) {
      await page.setViewportSize({ width, height });
      await frame(page);
      await fits(`${width} x ${height}`);
    }
    await page.setViewportSize({ width: 1000, height: 800 });
    await page.evaluate(() => {
      document.getElementById("drawing-beam").style.width = "1500px";
      document.querySelector(".plate").scrollLeft = 120;
      scrollTo(0, 60);
    });
    await frame(page);
    await fits("scrolled");
    await pull(page, place(page), 40 * (await scaleOf(page)), 0);
    await page.mouse.wheel(100, 0);
    await page.mouse.up();
    await frame(page);
    assert.equal(await text(place(page)).then((words) => Number.parseFloat(words) >= 2), true);
  }));

test("a page zoomed to 200 % has its handles at their places, and they drag as far as the hand goes", () =>
  // Zoom of a browser: half as many px of the page in the window, each twice as large on the screen.
  onSheet({ width: 500, height: 400, deviceScaleFactor: 2 }, async (page) => {
    await place(page).scrollIntoViewIfNeeded();
    close(await centre(place(page)), await spot(page, "drawing-beam", [180, 150]), 0.6);
    await pull(page, place(page), 80 * (await scaleOf(page)), 0);
    await page.mouse.up();
    assert.equal(await text(place(page)), "2.5 m");
  }));

test("handles at one place are parted, and each is reached by the hand", () =>
  onSheet({ lesson: { from: 1.5, size: 400 } }, async (page) => {
    const marks = await page.evaluate(() =>
      [...document.querySelectorAll("#scene-beam .grip")].map((mark) => {
        const { x, y, width, height } = mark.getBoundingClientRect();
        const centre = [x + width / 2, y + height / 2];
        return { centre, width, height, hit: document.elementFromPoint(...centre) === mark };
      }));
    assert.equal(marks.length, 3);
    for (const [index, one] of marks.entries()) {
      assert.ok(one.hit && one.width >= 24 && one.height >= 24, JSON.stringify(one));
      for (const other of marks.slice(index + 1)) {
        const apart = Math.hypot(one.centre[0] - other.centre[0], one.centre[1] - other.centre[1]);
        assert.ok(apart >= (one.width + other.width) / 2 - 1, `${apart}`);
      }
    }
    assert.ok((await page.locator("#scene-beam .grip[data-moved]").count()) >= 2);
    await pull(page, handle(page, "load 2: from"), 80 * (await scaleOf(page)), 0);
    await page.mouse.up();
    assert.deepEqual([await text(place(page)), await text(handle(page, "load 2: from"))], ["1.5 m", "2.5 m"]);
  }));

test("a finger drags without scrolling the page, on targets of 44 px, and a double tap opens the box", () =>
  onSheet({ width: 420, height: 500, hasTouch: true, isMobile: true }, async (page) => {
    const device = await page.context().newCDPSession(page);
    const touch = (type, ...at) => device.send("Input.dispatchTouchEvent", { type, touchPoints: at.length ? [{ x: at[0], y: at[1] }] : [] });
    assert.equal(await page.evaluate(() => matchMedia("(pointer: coarse)").matches), true);
    const size = await handle(page, "rod: length").boundingBox();
    assert.ok(size.width >= 44, `${size.width}`);
    const [x, y] = await centre(force(page));
    await touch("touchStart", x, y);
    for (let px = 4; px <= 24; px += 4) await touch("touchMove", x, y + px);
    await frame(page);
    const tag = await page.locator(".grip-tag").boundingBox();
    assert.ok(tag.y + tag.height < y + 24 - 10 || tag.x > x + 20 || tag.x + tag.width < x - 20, "the value stands clear of the finger");
    await touch("touchEnd");
    const scale = await scaleOf(page);
    const wanted = Math.round((12 - (24 / scale) * 0.2) * 2) / 2;
    assert.equal(await text(force(page)), `${wanted} kN`);
    assert.deepEqual([await page.evaluate(() => scrollY), await steps(page), await focus(page)], [0, 1, "load 1: force"]);
    const [u, v] = await centre(force(page));
    for (let tap = 0; tap < 2; tap += 1) {
      await touch("touchStart", u, v);
      await touch("touchEnd");
    }
    await page.waitForTimeout(400);
    assert.equal(await page.evaluate(() => document.activeElement.className), "grip-entry");
  }));

test("marks stand out from white, show their way without colour, and are left out of print", () =>
  onSheet({ reducedMotion: "reduce" }, async (page) => {
    const look = () => page.evaluate(() => {
      const mark = document.querySelector(".grip");
      const ring = getComputedStyle(mark, "::before");
      const upright = getComputedStyle(document.querySelector(".grip[data-axis=up]"), "::after").transform;
      return { colour: ring.borderTopColor, opacity: ring.opacity, time: ring.transitionDuration, shape: getComputedStyle(mark, "::after").clipPath, upright };
    });
    const { colour, opacity, time, shape, upright } = await look();
    // Relative luminance and contrast as WCAG 2.2 defines them, of the ring as it is laid over the paper.
    const light = (parts) => {
      const [red, green, blue] = parts.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05;
    };
    const contrast = (colour, paper) => {
      const parts = colour.match(/\d+/g).slice(0, 3).map((part, at) => (Number(part) / 255) * Number(opacity) + paper[at] * (1 - Number(opacity)));
      const [one, other] = [light(parts), light(paper)];
      return Math.max(one, other) / Math.min(one, other);
    };
    assert.ok(contrast(colour, [1, 1, 1]) >= 3, colour);
    assert.equal(time, "0s");
    assert.match(shape, /polygon/);
    assert.notEqual(upright, "none");
    await page.evaluate(() => (document.documentElement.dataset.board = "dark"));
    const dark = (await look()).colour;
    assert.ok(contrast(dark, [0x14, 0x18, 0x1f].map((part) => part / 255)) >= 3, dark);
    await page.emulateMedia({ forcedColors: "active" });
    assert.equal((await look()).opacity, "1");
    await page.emulateMedia({ media: "print" });
    assert.equal(await page.locator(".grip").first().isVisible(), false);
  }));

test("a part of the page that is hidden and shown again has its handles at their places", () =>
  onSheet({}, async (page) => {
    await page.evaluate(() => (document.querySelector("#scene-beam .step").hidden = true));
    await frame(page);
    await page.setViewportSize({ width: 600, height: 700 });
    await page.evaluate(() => board.replace(JSON.stringify({ ...JSON.parse(board.text), place: 3 })));
    await page.evaluate(() => (document.querySelector("#scene-beam .step").hidden = false));
    await frame(page);
    close(await centre(place(page)), await spot(page, "drawing-beam", [300, 150]), 0.8);
  }));
