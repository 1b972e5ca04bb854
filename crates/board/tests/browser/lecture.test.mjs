// The lecture in a browser, on a small sheet of its own (lecture-harness.html).
//
//   PLAYWRIGHT=path/to/node_modules BROWSER=path/to/chromium node --test lecture.test.mjs
//
// Expected contrast and target sizes: WCAG 2.2, success criteria 1.4.3 (4.5:1 for text), 1.4.11 (3:1 for edges of
// controls), 1.4.10 (320 px), 2.5.5 (44 px), 2.1.4 (a key of one letter can be turned off). The rest is our own design.

import assert from "node:assert/strict";
import { test } from "node:test";
import { browser } from "./browser.mjs";

const harness = new URL("lecture-harness.html", import.meta.url).href;

/** Opens the sheet, hands over the page, and holds it to a silent console. */
async function onSheet({ width = 1280, height = 720, kept, dark, reducedMotion = "reduce", script } = {}, act) {
  const context = await browser.newContext({ viewport: { width, height }, reducedMotion });
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  if (script) await page.addInitScript(script);
  if (kept !== undefined) {
    const text = JSON.stringify({ lecture: kept });
    await page.addInitScript((text) => localStorage.getItem("kept") ?? localStorage.setItem("kept", text), text);
  }
  await page.goto(harness);
  if (dark) await page.evaluate(() => (document.documentElement.dataset.board = "dark"));
  try {
    await act(page);
    assert.deepEqual(faults, []);
  } finally {
    await context.close();
  }
}

/** What stands open: scene names with the places of their visible steps; "?" marks a question. */
const open = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll(".scene")]
      .filter((scene) => scene.checkVisibility())
      .map((scene) => {
        const places = [...scene.querySelectorAll(".step")].map((step, place) => {
          if (step.checkVisibility()) return String(place);
          return step.previousElementSibling?.matches(".predict:not([hidden])") ? `${place}?` : "";
        });
        return `${scene.id.slice(6)} ${places.filter(Boolean).join(" ")}`;
      }));
/** The edges of the last visible step, in the window. */
const lastStep = (page) =>
  page.evaluate(() => [...document.querySelectorAll(".step")].filter((step) => step.checkVisibility()).at(-1).getBoundingClientRect().toJSON());
/** By how much the page is too wide. */
const over = (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
const press = async (page, ...keys) => {
  for (const key of keys) await page.keyboard.press(key);
};
const button = (page, name) => page.getByRole("button", { name, exact: true });
const said = (page) => page.evaluate(() => said.splice(0));
const all = ["beam 0 1 2", "slice 0 1 2", "cut 0 1 2", "balance 0"];

test("the sheet opens for reading, with everything visible and no key taken", () =>
  onSheet({}, async (page) => {
    assert.deepEqual(await open(page), all);
    await press(page, "ArrowRight", "PageDown", "End");
    assert.deepEqual(await open(page), all);
    assert.equal(await page.evaluate(() => touches), 0);
    assert.deepEqual(await said(page), []);
  }));

test("a lecture goes forward and back through steps and scenes", () =>
  onSheet({}, async (page) => {
    await button(page, "Lecture").click();
    assert.equal(await button(page, "Lecture").getAttribute("aria-pressed"), "true");
    assert.deepEqual(await open(page), ["beam 0"]);
    await press(page, "ArrowRight");
    assert.deepEqual(await open(page), ["beam 0 1"]);
    await press(page, "PageDown", "ArrowRight");
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0"]);
    await press(page, "End");
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0 1 2"]);
    await press(page, "Home");
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0"]);
    await press(page, "ArrowLeft");
    assert.deepEqual(await open(page), ["beam 0 1 2"]);
    await press(page, "PageUp", "ArrowLeft", "ArrowLeft", "ArrowLeft");
    assert.deepEqual(await open(page), ["beam 0"]);
    await page.evaluate(() => document.activeElement.blur());
    await press(page, "Space");
    assert.deepEqual(await open(page), ["beam 0 1"]);
    await button(page, "Next").click();
    await button(page, "Back").click();
    assert.deepEqual(await open(page), ["beam 0 1"]);
    await button(page, "Lecture").click();
    assert.deepEqual(await open(page), all);
  }));

test("the end and the beginning of the sheet are said, and nothing is lost there", () =>
  onSheet({ kept: { on: true, scene: "balance", shown: [["balance", 1]] } }, async (page) => {
    await press(page, "ArrowRight", "ArrowRight");
    assert.deepEqual(await said(page), Array(2).fill("This is the end of the sheet."));
    assert.deepEqual(await open(page), ["balance 0"]);
  }));

test("steps that wait are out of reach of a screen reader and of the tab key", () =>
  onSheet({ kept: { on: true, scene: "cut", shown: [["cut", 1]] } }, async (page) => {
    const waiting = await page.$$eval("#scene-cut .step", (steps) => steps.map((step) => [step.hidden, step.inert]));
    assert.deepEqual(waiting, [[false, false], [true, true], [true, true]]);
    const tree = await page.locator("#sheet").ariaSnapshot();
    assert.match(tree, /Choose the height/);
    assert.doesNotMatch(tree, /A note of the class|two planks|residual|supports share/);
  }));

test("each new step is announced once, by its heading or its first words", () =>
  onSheet({}, async (page) => {
    await button(page, "Lecture").click();
    await said(page);
    await press(page, "ArrowRight", "ArrowRight", "ArrowRight", "ArrowRight", "ArrowRight");
    assert.deepEqual(await said(page), [
      "Step 2 of 3. The supports share the force: 6 kN each.",
      "Step 3 of 3. So the shear force jumps by 12 kN under the force.",
      "Scene 2 of 4: A slice of the beam. Two bending moments",
      "Step 2 of 3. On the faces the bending stresses differ, and the part beyond the …",
      "Step 3 of 3. A force on the cut holds it: tau equals V times Q, …",
    ]);
  }));

test("keys stay with the slider, the field, the note, the list that scrolls and the pressed button", () =>
  onSheet({ kept: { on: true, scene: "cut", shown: [["cut", 2]] } }, async (page) => {
    const before = await open(page);
    for (const [id, keys] of [
      ["height", ["ArrowRight", "PageDown", "Home", "End", "Space"]],
      ["field", ["ArrowRight", "PageDown", "Home", "End", "Space", "g"]],
      ["note", ["ArrowRight", "PageUp", "Home", "Space", "g"]],
      ["broad", ["ArrowRight", "ArrowLeft"]],
      ["more", ["Space"]],
    ]) {
      await page.focus(`#${id}`);
      await press(page, ...keys);
      assert.deepEqual(await open(page), before, id);
      assert.equal(await page.locator("dialog[open]").count(), 0, id);
    }
    await button(page, "Scenes 3 of 4").focus();
    await press(page, "Space");
    assert.equal(await page.locator("dialog[open]").count(), 1);
    await press(page, "ArrowRight", "Escape", "Control+ArrowRight", "Alt+ArrowRight");
    assert.deepEqual(await open(page), before);
    await press(page, "ArrowRight");
    assert.deepEqual(await open(page), ["cut 0 1 2"], "an arrow on a button of the bar does step");
  }));

test("nothing above moves when a step comes or goes, and the new step is in sight and uncovered", () =>
  onSheet({}, async (page) => {
    await button(page, "Lecture").click();
    const top = () => page.evaluate(() => document.querySelector("#h-beam").getBoundingClientRect().top + scrollY);
    const heading = await top();
    for (let step = 0; step < 8; step += 1) {
      await press(page, "ArrowRight");
      assert.equal(await top(), heading);
      const { top: start, bottom } = await lastStep(page);
      const bar = await page.evaluate(() => document.getElementById("bar").getBoundingClientRect().bottom);
      assert.ok(start >= bar && (bottom <= 721 || start < 360), `step ${step}: ${start} to ${bottom} beneath ${bar}`);
    }
    assert.deepEqual((await open(page)).at(-1), "cut 0 1 2");
    await page.evaluate(() => scrollTo(0, document.querySelector("#h-cut").getBoundingClientRect().top + scrollY - 100));
    const there = await page.evaluate(() => scrollY);
    await press(page, "ArrowLeft");
    assert.deepEqual((await open(page)).at(-1), "cut 0 1");
    assert.equal(await page.evaluate(() => scrollY), there, "taking a step back moves nothing that stays in sight");
  }));

test("turning the lecture on and off keeps the scene where it stands", () =>
  onSheet({}, async (page) => {
    await page.evaluate(() => scrollTo(0, document.querySelector("#h-cut").getBoundingClientRect().top - 150));
    await button(page, "Scenes 3 of 4").waitFor();
    const top = () => page.evaluate(() => Math.round(document.querySelector("#h-cut").getBoundingClientRect().top));
    const before = await top();
    await button(page, "Lecture").click();
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0 1 2", "cut 0"]);
    assert.ok(Math.abs((await top()) - before) <= 1, `${before}, now ${await top()}`);
    await button(page, "Scenes 3 of 4").focus();
    assert.ok(Math.abs((await top()) - before) <= 1, "a button of the bar takes the focus where it stands");
    await button(page, "Predict first").click();
    assert.ok(Math.abs((await top()) - before) <= 1, `${before}, now ${await top()}`);
    await button(page, "Lecture").click();
    assert.ok(Math.abs((await top()) - before) <= 1, `${before}, now ${await top()}`);
  }));

test("motion is smooth unless the reader asked for less", () =>
  onSheet({ reducedMotion: "no-preference", height: 400 }, async (page) => {
    await page.evaluate(() => {
      window.ways = [];
      const plain = window.scrollTo;
      window.scrollTo = (way) => {
        ways.push(way.behavior);
        plain(way);
      };
    });
    await button(page, "Lecture").click();
    await press(page, "ArrowRight");
    assert.equal(await page.evaluate(() => ways.at(-1)), "smooth");
    await page.emulateMedia({ reducedMotion: "reduce" });
    await press(page, "ArrowRight", "ArrowRight", "ArrowRight");
    assert.equal(await page.evaluate(() => ways.at(-1)), "instant");
  }));

test("a press while the sheet is still on its way counts from where it is going", () =>
  onSheet({ reducedMotion: "no-preference", height: 320 }, async (page) => {
    await button(page, "Lecture").click();
    await page.waitForTimeout(1600);
    const places = [];
    for (let press_ = 0; press_ < 3; press_ += 1) {
      await page.evaluate(() => Promise.resolve([...document.querySelectorAll("button")].find((each) => each.textContent === "Next").click()));
      places.push((await open(page)).at(-1));
    }
    await page.waitForTimeout(1600);
    const at = await page.evaluate(() => scrollY);
    await page.emulateMedia({ reducedMotion: "reduce" });
    await page.reload();
    await press(page, "Home", "ArrowRight", "ArrowRight", "ArrowRight");
    assert.equal((await open(page)).at(-1), places.at(-1));
    assert.ok(Math.abs((await page.evaluate(() => scrollY)) - at) <= 2, `${at}, at once ${await page.evaluate(() => scrollY)}`);
  }));

test("any scene is reached from the list, by key, by digit and by button", () =>
  onSheet({}, async (page) => {
    await press(page, "g");
    const list = page.getByRole("dialog", { name: "Scenes" });
    assert.equal(await list.getByRole("navigation").getByRole("button").count(), 4);
    assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-current")), "true");
    await press(page, "ArrowDown", "ArrowDown", "Enter");
    assert.equal(await list.count(), 0);
    assert.equal(await page.evaluate(() => document.activeElement.id), "h-cut");
    assert.equal(await button(page, "Scenes 3 of 4").count(), 1);
    await press(page, "g", "2");
    assert.equal(await page.evaluate(() => document.activeElement.id), "h-slice");
    assert.deepEqual(await said(page), ["Scene 3 of 4: The stress on the cut.", "Scene 2 of 4: A slice of the beam."]);
    await button(page, "Lecture").click();
    await button(page, "Scenes 2 of 4").click();
    await list.getByRole("button", { name: "The balance closes" }).click();
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0", "balance 0"]);
    await press(page, "g");
    await list.getByRole("button", { name: "Start over" }).click();
    assert.deepEqual(await open(page), ["beam 0"]);
  }));

test("the key of the list can be turned off, and stays off", () =>
  onSheet({}, async (page) => {
    await press(page, "g");
    await page.getByLabel("The key G opens this list").uncheck();
    await button(page, "Close").click();
    await press(page, "g");
    assert.equal(await page.locator("dialog[open]").count(), 0);
    await page.reload();
    await press(page, "g");
    assert.equal(await page.locator("dialog[open]").count(), 0);
  }));

test("the current scene follows the reader", () =>
  onSheet({}, async (page) => {
    for (const [id, place] of [["slice", "2 of 4"], ["beam", "1 of 4"], ["balance", "4 of 4"]]) {
      await page.evaluate((name) => document.getElementById(`scene-${name}`).scrollIntoView(), id);
      await button(page, `Scenes ${place}`).waitFor({ timeout: 2000 });
    }
  }));

test("predict first: questions in place of answers, in order", () =>
  onSheet({}, async (page) => {
    await button(page, "Predict first").click();
    assert.deepEqual(await open(page), ["beam 0 1? 2", "slice 0 1? 2?", "cut 0 1 2", "balance 0"]);
    const tree = await page.locator("#sheet").ariaSnapshot();
    assert.match(tree, /How large is each reaction/);
    assert.doesNotMatch(tree, /supports share/);
    await said(page);
    await page.locator(".predict button").first().focus();
    await press(page, "Enter");
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0 1? 2?", "cut 0 1 2", "balance 0"]);
    assert.equal(await page.evaluate(() => document.activeElement === document.querySelectorAll(".step")[1]), true);
    assert.deepEqual(await said(page), ["Answer: The supports share the force: 6 kN each."]);
    await page.reload();
    assert.deepEqual(await open(page), ["beam 0 1 2", "slice 0 1? 2?", "cut 0 1 2", "balance 0"]);
    await button(page, "Predict first").click();
    assert.deepEqual(await open(page), all);
    assert.equal(await page.locator(".predict").count(), 0);
    await button(page, "Predict first").click();
    assert.deepEqual((await open(page))[0], "beam 0 1? 2", "turned on again, it asks again");
  }));

test("in a lecture the next key asks, then answers, then goes on; back undoes it", () =>
  onSheet({}, async (page) => {
    await button(page, "Lecture").click();
    await button(page, "Predict first").click();
    await said(page);
    const seen = [];
    for (const key of ["ArrowRight", "ArrowRight", "ArrowRight", "ArrowLeft", "ArrowLeft", "ArrowLeft"]) {
      await press(page, key);
      seen.push((await open(page)).join());
    }
    assert.deepEqual(seen, ["beam 0 1?", "beam 0 1", "beam 0 1 2", "beam 0 1", "beam 0 1?", "beam 0"]);
    assert.equal((await said(page))[0], "Step 2 of 3. Question: How large is each reaction?");
  }));

test("a step rewritten while it waits is not given away, and comes with its new words", () =>
  onSheet({}, async (page) => {
    await button(page, "Predict first").click();
    await page.evaluate(() => (document.querySelectorAll(".step")[1].innerHTML = "<p>Now 7 kN each.</p>"));
    assert.equal((await open(page))[0], "beam 0 1? 2");
    await page.locator(".predict button").first().click();
    assert.match(await page.locator("#scene-beam").innerText(), /Now 7 kN each/);
  }));

test("the lecture goes on after a reload, without a word", () =>
  onSheet({}, async (page) => {
    await button(page, "Lecture").click();
    await press(page, "End", "ArrowRight", "ArrowRight");
    const before = await open(page);
    await page.reload();
    assert.deepEqual(await open(page), before);
    assert.equal(await button(page, "Scenes 2 of 4").count(), 1);
    assert.deepEqual(await said(page), []);
    assert.equal(await page.evaluate(() => touches), 0);
    assert.ok((await lastStep(page)).bottom <= 721);
  }));

test("hostile data in what was kept is ignored", async () => {
  const deep = JSON.parse('{"__proto__":{"on":true},"constructor":1,"shown":{"__proto__":[1]}}');
  const typed = { on: "true", predict: 1, scene: "<img src=x onerror=alert(1)>", shown: "beam", answered: 3 };
  const listed = {
    shown: [["beam", 1e9], ["beam", -1], ["cut", 1.5], ["nowhere", 2], ["__proto__", 1], [["beam"], 1], null, 4],
    answered: ["beam 99", "x 1", 5, null, "beam 1 1", "__proto__ 0"],
  };
  for (const kept of [null, 7, "on", [], [[]], deep, typed, listed]) {
    await onSheet({ kept }, async (page) => {
      assert.deepEqual(await open(page), all, JSON.stringify(kept));
      assert.equal(await button(page, "Scenes 1 of 4").count(), 1);
      await button(page, "Lecture").click();
      assert.equal((await open(page)).length, 1);
      assert.equal(await page.evaluate(() => ({}).on), undefined);
    });
  }
});

test("a page saved in the middle of a lecture opens cleanly", () =>
  onSheet({ kept: { on: true, predict: true, scene: "beam", shown: [["beam", 2]] } }, async (page) => {
    await page.evaluate(() => {
      const [sheet, bar] = [document.getElementById("sheet"), document.getElementById("bar")];
      lecture({ sheet, bar, say() {}, kept: {}, touched() {} });
    });
    assert.deepEqual(await open(page), all);
    for (const part of [".lecture-tools", ".lecture-scenes"]) assert.equal(await page.locator(part).count(), 1, part);
    assert.equal(await page.locator(".predict").count(), 0);
  }));

const refuse = () => {
  Element.prototype.requestFullscreen = () => Promise.reject(new TypeError("refused"));
};
for (const refused of [false, true]) {
  test(`the look for the wall: one scene fills the width${refused ? ", where full screen is refused" : ""}`, () =>
    onSheet({ script: refused ? refuse : undefined }, async (page) => {
      await button(page, "Full screen").click();
      await page.waitForTimeout(200);
      assert.equal(await page.evaluate(() => document.documentElement.dataset.view), "wall");
      assert.equal(await page.evaluate(() => document.fullscreenElement === document.documentElement), !refused);
      assert.deepEqual(await open(page), ["beam 0 1 2"]);
      const { figure, window: wide, size, bar } = await page.evaluate(() => ({
        figure: document.querySelector("#scene-beam figure").getBoundingClientRect().width,
        window: innerWidth,
        size: parseFloat(getComputedStyle(document.querySelector("#scene-beam p")).fontSize),
        bar: document.getElementById("bar").getBoundingClientRect().height,
      }));
      assert.ok(figure > 0.9 * wide && size >= 22 && bar <= 56, JSON.stringify({ figure, size, bar }));
      assert.ok((await over(page)) <= 0);
      await press(page, "ArrowRight");
      assert.deepEqual(await open(page), ["beam 0 1 2"], "what the window cuts off comes first");
      await press(page, "ArrowRight");
      assert.deepEqual(await open(page), ["slice 0 1 2"]);
      await button(page, "Lecture").click();
      assert.deepEqual(await open(page), ["slice 0"]);
      await press(page, "Escape");
      if (!refused) await page.evaluate(() => document.fullscreenElement && document.exitFullscreen());
      await page.waitForFunction(() => !document.documentElement.dataset.view, null, { timeout: 2000 });
      assert.equal(await button(page, "Full screen").getAttribute("aria-pressed"), "false");
    }));
}

test("no sideways scrolling, targets of 44 px, and nothing focused is covered, in small windows", async () => {
  for (const [width, height] of [[320, 640], [320, 256], [390, 844], [640, 360], [1280, 720]]) {
    const kept = { on: true, predict: true, scene: "cut", shown: [["beam", 3], ["slice", 3], ["cut", 3]] };
    await onSheet({ width, height, kept }, async (page) => {
      const where = `${width} x ${height}`;
      for (const wall of [false, true]) {
        if (wall) await button(page, "Full screen").click();
        assert.ok((await over(page)) <= 0, where);
      }
      await page.evaluate(() => document.fullscreenElement && document.exitFullscreen());
      await page.waitForFunction(() => !document.documentElement.dataset.view);
      await page.setViewportSize({ width, height });
      const sizes = await page.$$eval(".lecture-tools button, .predict button", (all) =>
        all.filter((one) => one.checkVisibility()).map((one) => one.getBoundingClientRect()).map(({ width, height }) => [width, height]));
      assert.ok(sizes.length >= 7 && sizes.flat().every((size) => size >= 44), `${where}: ${JSON.stringify(sizes)}`);
      await page.evaluate(() => scrollTo(0, 0));
      for (let step = 0; step < 16; step += 1) {
        await press(page, "Tab");
        const covered = await page.evaluate(() => {
          const part = document.activeElement;
          if (part === document.body) return "";
          const { left, top, right, bottom } = part.getBoundingClientRect();
          const points = [[left + 2, top + 2], [right - 2, bottom - 2], [(left + right) / 2, (top + bottom) / 2]];
          const free = points.some(([x, y]) => part.contains(document.elementFromPoint(x, y)));
          return free ? "" : `${part.outerHTML.slice(0, 80)} ${top} to ${bottom}`;
        });
        assert.equal(covered, "", where);
      }
    });
  }
});

test("text and edges have their contrast, light and dark", async () => {
  for (const dark of [false, true]) {
    await onSheet({ dark, kept: { on: true, predict: true, scene: "slice", shown: [["slice", 3]] } }, async (page) => {
      await press(page, "g");
      const pairs = await page.evaluate(() => {
        const probe = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
        const shine = (hex) => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255)
          .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4))
          .reduce((sum, part, place) => sum + part * [0.2126, 0.7152, 0.0722][place], 0);
        const ratio = (one, other) => {
          const [low, high] = [shine(probe(one)), shine(probe(other))].sort((a, b) => a - b);
          return (high + 0.05) / (low + 0.05);
        };
        return [["ink", "paper", 4.5], ["ink", "tint", 4.5], ["quiet", "paper", 4.5], ["quiet", "tint", 4.5], ["plum", "paper", 4.5],
          ["on-key", "key", 4.5], ["key", "paper", 3], ["edge", "paper", 3], ["edge", "tint", 3]]
          .map(([one, other, least]) => [one, other, least, ratio(`--lecture-${one}`, `--lecture-${other}`)]);
      });
      for (const [one, other, least, found] of pairs) {
        assert.ok(found >= least, `${dark ? "dark" : "light"}: ${one} on ${other}: ${found} of ${least}`);
      }
    });
  }
});

test("print shows the whole sheet and no control", () =>
  onSheet({ kept: { on: true, predict: true, scene: "beam", shown: [["beam", 1]] } }, async (page) => {
    await button(page, "Full screen").click();
    await page.emulateMedia({ media: "print" });
    assert.deepEqual(await open(page), all);
    for (const part of [".lecture-tools", ".lecture-scenes", ".predict"]) {
      for (const one of await page.locator(part).all()) assert.equal(await one.isVisible(), false, part);
    }
  }));
