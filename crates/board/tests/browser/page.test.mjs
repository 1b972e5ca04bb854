// The real page, opened from the disk with the network cut: its numbers, typing, undo, saving, links, drawings taken out,
// print, and the windows of a phone and a projector.
//
// Expected numbers: those of the command `glueline values`, and closed form where a line says so.

import assert from "node:assert/strict";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import {
  button, field, frame, handle, lessonText, message, more, names, near, offered, onPage, onTab, over, pageOf,
  pull, ready, textOf, value,
} from "./real-page.mjs";

/** Types into a field and leaves it by Enter. */
async function type(page, path, words) {
  await field(page, path).fill(words);
  await field(page, path).press("Enter");
}

test("what is typed is taken: drawing, equations and fields follow, undo and redo go step by step", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    const look = () => page.evaluate(() => ["#drawing-beam-given > svg", "#results-reactions", "#drawing-diagrams > svg", "#values"]
      .map((part) => document.querySelector(part).outerHTML));
    const first = await look();
    await type(page, "beam.loads[0].at", "1 m");
    assert.equal(await message(page), "");
    const second = await look();
    second.forEach((part, place) => assert.notEqual(part, first[place]));
    near(await value(page, "reaction at A"), (12500 * 3 - 5000) / 4); // closed form: moments about B
    await type(page, "values.P_1", "20 kN");
    near(await value(page, "reaction at A"), (20000 * 3 - 5000) / 4);
    assert.match(await textOf(page), /P_1 = "20 kN"/);
    await page.evaluate(() => document.activeElement.blur());
    await page.keyboard.press("Control+z");
    assert.equal(await field(page, "values.P_1").inputValue(), "12.5 kN");
    await page.keyboard.press("Control+z");
    assert.equal(await textOf(page), lessonText("overhang"));
    const again = await look();
    assert.deepEqual(again.slice(1), first.slice(1));
    assert.equal(await button(page, "Undo").isDisabled(), true);
    await button(page, "Redo").click();
    await page.keyboard.press("Control+Shift+z");
    near(await value(page, "reaction at A"), (20000 * 3 - 5000) / 4);
    assert.equal(await button(page, "Redo").isDisabled(), true);
  }));

test("what is refused is said, marked, and loses nothing; Escape brings the old value back", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    const station = field(page, "slice.at");
    for (const wrong of ["over there", "7 m", "1 kN", "", "\"]\n[x]", "1 m\u0000", "9".repeat(400) + " m"]) {
      await station.fill(wrong);
      await station.press("Enter");
      assert.equal(await station.getAttribute("aria-invalid"), "true", wrong);
      assert.equal(await station.getAttribute("aria-describedby"), "message");
      assert.notEqual(await message(page), "", wrong);
      assert.equal(await textOf(page), lessonText("overhang"));
    }
    await page.waitForFunction(() => document.getElementById("said").textContent === document.getElementById("message").textContent);
    await station.press("Escape");
    assert.deepEqual([await station.inputValue(), await station.getAttribute("aria-invalid"), await message(page)], ["1 m", null, ""]);
    await type(page, "slice.at", "1.2 m");
    assert.equal(await station.getAttribute("aria-invalid"), null);
    near(await value(page, "bending moment at the slice"), 6000); // closed form: 5 kN at 1.2 m
  }));

test("the lesson is saved as the text of the board, with its comments", () =>
  onPage({ lesson: "conveyor" }, async (page) => {
    await type(page, "values.w", "12 kN/m");
    const { name, bytes } = await offered(page, () => button(page, "Save the lesson").click());
    assert.equal(name, "conveyor.toml");
    assert.equal(bytes.toString(), await textOf(page));
    assert.equal(bytes.toString(), lessonText("conveyor").replace('"8 kN/m"      # belt', '"12 kN/m"      # belt'));
  }));

test("a saved page opens with the changed lesson, and can be saved again", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await type(page, "slice.at", "1.5 m");
    const first = await offered(page, () => more(page, "Save this page"));
    assert.equal(first.name, "overhang.html");
    await onPage({ file: first.file }, async (second) => {
      assert.match(await textOf(second), /at = "1\.5 m"/);
      near(await value(second, "bending moment at the slice"), 7500);
      assert.equal(await field(second, "slice.at").inputValue(), "1.5 m");
      await pull(second, handle(second, "beam-given", "load 1: place"), 40, 0);
      await second.mouse.up();
      const again = await offered(second, () => more(second, "Save this page"));
      const text = await textOf(second);
      assert.ok(Math.abs(again.bytes.length - first.bytes.length) < 2000, "it does not grow");
      await onPage({ file: again.file }, async (third) => assert.equal(await textOf(third), text));
    });
  }));

test("a reload keeps the text; the page from the disk is as it was made", () =>
  onPage({ lesson: "overhang" }, async (page) => {
    await type(page, "slice.at", "1.5 m");
    await page.waitForTimeout(50);
    await page.reload();
    await ready(page);
    assert.match(await textOf(page), /at = "1\.5 m"/);
    near(await value(page, "bending moment at the slice"), 7500);
    await button(page, "Undo").click();
    assert.equal(await textOf(page), lessonText("overhang"));
    const other = await page.context().newPage();
    await other.goto(page.url());
    await ready(other);
    assert.equal(await textOf(other), lessonText("overhang"));
  }));

test("a link carries the lesson", () =>
  onPage({ lesson: "overhang", permissions: ["clipboard-read", "clipboard-write"] }, async (page) => {
    await type(page, "slice.at", "1.5 m");
    await more(page, "Copy a link");
    await page.waitForFunction(() => /link/i.test(document.getElementById("said").textContent) || location.hash);
    const link = await page.evaluate(() => (location.hash ? location.href : navigator.clipboard.readText()));
    assert.match(link, /#lesson=[\w-]+$/);
    await onPage({ lesson: "overhang", hash: link.replace(/.*#/, "#") }, async (other) => {
      assert.match(await textOf(other), /at = "1\.5 m"/);
      near(await value(other, "bending moment at the slice"), 7500);
      await button(other, "Undo").click();
      assert.equal(await textOf(other), lessonText("overhang"), "one step back is the page's own lesson");
    });
  }));

test("every drawing can be taken out as SVG and as PNG", () =>
  onPage({ lesson: "box-girder" }, async (page) => {
    const titles = await page.$$eval("figure[data-drawing]", (all) => all.map((one) => one.dataset.drawing));
    assert.ok(titles.length >= 8, `${titles}`);
    for (const name of titles) {
      const figure = page.locator(`figure[data-drawing="${name}"]`);
      const svg = await offered(page, () => figure.getByRole("button", { name: /Take out as SVG/ }).click());
      assert.equal(svg.name, `${name}.svg`);
      const read = await page.evaluate((text) => {
        const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
        return [root.namespaceURI, root.localName, root.querySelectorAll("path, line, polygon, rect, circle, text").length,
          root.querySelectorAll(".grip, script, foreignObject, [onload]").length];
      }, svg.bytes.toString());
      assert.deepEqual(read.slice(0, 2), ["http://www.w3.org/2000/svg", "svg"]);
      assert.ok(read[2] > 3 && read[3] === 0, `${name}: ${read}`);
      const png = await offered(page, () => figure.getByRole("button", { name: /Take out as PNG/ }).click());
      assert.equal(png.name, `${name}.png`);
      // PNG, W3C Recommendation, sections 5.2 and 11.2.2: signature, then IHDR with width and height.
      assert.equal(png.bytes.subarray(0, 8).toString("hex"), "89504e470d0a1a0a");
      assert.ok(png.bytes.readUInt32BE(16) > 300 && png.bytes.readUInt32BE(20) > 150 && png.bytes.length > 3000, name);
    }
  }));

test("print gives a handout without handles, fields and bars", async () => {
  for (const look of [{}, { colorScheme: "dark" }]) {
    await onPage({ lesson: "overhang", ...look }, async (page) => {
      await button(page, "Write").click();
      await page.emulateMedia({ media: "print" });
      const seen = await page.evaluate(() => document.body.innerText);
      for (const word of ["Undo", "Save", "Lecture", "Full screen", "Eraser", "More", "SVG", "PNG", "Arrow keys"]) {
        assert.ok(!new RegExp(`^${word}\\b`, "m").test(seen), word);
      }
      assert.match(seen, /The beam and what it carries/);
      const left = await page.evaluate(() => [...document.querySelectorAll("button, input, .grip, .grip-tag, #bar, .ink-bar, .ink-pad, dialog, [role=slider], summary")]
        .filter((part) => part.checkVisibility()).map((part) => part.outerHTML.slice(0, 80)));
      assert.deepEqual(left, []);
      const dark = await page.evaluate(() => [...document.querySelectorAll("h2, p, td")].filter((part) => part.checkVisibility())
        .every((part) => getComputedStyle(part).color.match(/\d+/g).every((colour) => Number(colour) < 110)));
      assert.ok(dark, "dark letters, on the dark board too");
      const pdf = await page.pdf({ format: "A4" });
      assert.equal(pdf.subarray(0, 5).toString(), "%PDF-");
    });
  }
});

for (const [what, look] of [
  ["a phone", { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 }],
  ["a projector", { viewport: { width: 1280, height: 720 } }],
  ["a window zoomed to 200 %", { viewport: { width: 640, height: 360 }, deviceScaleFactor: 2 }],
]) {
  test(`nothing goes over the edge of ${what}, in any lesson`, async () => {
    for (const lesson of names) {
      await onPage({ lesson, ...look }, async (page) => {
        assert.ok((await over(page)) <= 0, lesson);
        await page.evaluate(() => document.querySelectorAll("details").forEach((part) => (part.open = true)));
        assert.ok((await over(page)) <= 0, `${lesson}, words open`);
        await button(page, "Write").click();
        assert.ok((await over(page)) <= 0, `${lesson}, ink open`);
        await button(page, "Lecture").click();
        assert.ok((await over(page)) <= 0, `${lesson}, lecture`);
        await button(page, "More").click();
        const box = await page.locator("#more").boundingBox();
        const { width, height } = page.viewportSize();
        assert.ok(box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height, `${lesson}: ${JSON.stringify(box)}`);
      });
    }
  });
}

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
/** The size of the smallest letters of each drawing, indices left out, and how far it goes over its plate, px. */
const drawings = (page) => page.evaluate(() => [...document.querySelectorAll("figure[data-drawing]")].filter((figure) => figure.checkVisibility()).map((figure) => {
  const [svg, plate] = [figure.querySelector(".piece > svg:not(.ink)"), figure.querySelector(".plate")];
  const scale = svg.getScreenCTM().a;
  const sizes = [...svg.querySelectorAll("text")].map((text) => Number(text.getAttribute("font-size")) * scale);
  return { name: figure.dataset.drawing, least: Math.min(...sizes), over: plate.scrollWidth - plate.clientWidth, width: svg.viewBox.baseVal.width };
}));

test("on a phone every drawing is drawn narrow, in letters of 12 px and more, and hardly any goes over the edge", async () => {
  for (const lesson of names) {
    await onPage({ lesson, ...phone }, async (page) => {
      for (const { name, least, over } of await drawings(page)) {
        assert.ok(least >= 12, `${lesson} ${name}: letters of ${least} px`);
        assert.ok(over <= 60, `${lesson} ${name}: ${over} px beyond the edge`);
      }
    });
  }
});

test("on a wall of 1280 x 720 no drawing has letters below 15 px", async () => {
  for (const lesson of names) {
    await onPage({ lesson }, async (page) => {
      await button(page, "Full screen").click();
      await page.waitForFunction(() => document.documentElement.dataset.view === "wall");
      const told = new Set();
      for (const scene of await page.$$eval(".scene", (all) => all.map((scene) => scene.id))) {
        await page.evaluate((id) => document.querySelectorAll(".scene").forEach((scene) => {
          scene.toggleAttribute("data-waiting", scene.id !== id);
          scene.hidden = scene.id !== id;
        }), scene);
        for (const { name, least } of await drawings(page)) {
          told.add(name);
          assert.ok(least >= 15, `${lesson} ${name}: letters of ${least} px`);
        }
      }
      assert.ok(told.size >= 11, `${lesson}: ${[...told]}`);
    });
  }
});

test("a window that becomes wide has the usual drawings; one with ink on it stays as it was written on", () =>
  onPage({ lesson: "overhang", viewport: { width: 390, height: 844 } }, async (page) => {
    const width = async () => (await drawings(page))[0].width;
    assert.ok((await width()) < 400);
    await page.setViewportSize({ width: 1280, height: 720 });
    await page.waitForFunction(() => document.querySelector("#drawing-beam-given > svg").viewBox.baseVal.width === 640);
    await pull(page, handle(page, "beam-given", "load 1: place"), 40, 0);
    await page.mouse.up();
    await page.setViewportSize({ width: 390, height: 844 });
    await page.waitForFunction(() => document.querySelector("#drawing-beam-given > svg").viewBox.baseVal.width < 400);
    near(await value(page, "reaction at A"), (12500 * (4 - Number(await handle(page, "beam-given", "load 1: place").getAttribute("aria-valuenow"))) - 5000) / 4);
    await button(page, "Write").click();
    const box = await page.locator("#drawing-beam-given").boundingBox();
    await page.mouse.move(box.x + 60, box.y + 60);
    await page.mouse.down();
    await page.mouse.move(box.x + 160, box.y + 64, { steps: 5 });
    await page.mouse.up();
    await page.setViewportSize({ width: 1280, height: 720 });
    await frame(page);
    assert.ok((await width()) < 400);
  }));

test("a finger drags a load on a phone, and the page stays where it is", () =>
  onPage({ lesson: "overhang", viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 }, async (page) => {
    const part = handle(page, "beam-given", "load 1: place");
    await part.evaluate((element) => element.scrollIntoView({ block: "center", inline: "center" }));
    const device = await page.context().newCDPSession(page);
    const touch = (type, ...at) => device.send("Input.dispatchTouchEvent", { type, touchPoints: at.length ? [{ x: at[0], y: at[1] }] : [] });
    const { x, y, width, height } = await part.boundingBox();
    assert.ok(width >= 24 && height >= 24);
    const scroll = await page.evaluate(() => scrollY);
    await touch("touchStart", x + width / 2, y + height / 2);
    for (let px = 5; px <= 30; px += 5) await touch("touchMove", x + width / 2 + px, y + height / 2);
    await frame(page);
    await touch("touchEnd");
    await frame(page);
    assert.notEqual(await textOf(page), lessonText("overhang"));
    assert.ok(Math.abs((await page.evaluate(() => scrollY)) - scroll) <= 1);
    near(await value(page, "reaction at A"), (12500 * (4 - Number(await part.getAttribute("aria-valuenow"))) - 5000) / 4);
  }));

test("the dark board is chosen by hand and kept by a reload", () =>
  onTab({}, async (page) => {
    await page.goto(pathToFileURL(pageOf("overhang")).href);
    await ready(page);
    const board = () => page.evaluate(() => document.documentElement.dataset.board);
    assert.equal(await board(), "light");
    await more(page, "Dark board");
    assert.equal(await board(), "dark");
    await page.waitForFunction(() => sessionStorage.length > 0);
    await page.reload();
    await ready(page);
    assert.equal(await board(), "dark");
  }));
