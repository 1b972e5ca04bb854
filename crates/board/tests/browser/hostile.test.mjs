// What comes from outside is text: damaged and hostile links, lessons and kept data on the real page.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { deflateRawSync } from "node:zlib";
import { button, field, folder, frame, lessonText, makePageOf, message, offered, onPage, onTab, pageOf, textOf } from "./real-page.mjs";

const lesson = "overhang";
const coded = (text) => deflateRawSync(Buffer.from(text)).toString("base64url");
const follow = (page, hash) => page.evaluate((hash) => { location.hash = hash; }, hash);

const bomb = deflateRawSync(Buffer.alloc(300_000_000, "# x\n")).toString("base64url");
for (const [what, link] of [
  ["signs that are no base64", "A"],
  ["base64 of nothing packed", "AAAAAAAA"],
  ["a link that was cut", coded(lessonText(lesson)).slice(0, 200)],
  ["an empty link", ""],
  ["a link that swells", bomb],
  ["bytes that are no text", deflateRawSync(Buffer.from([0xff, 0xfe, 0x80])).toString("base64url")],
  ["a text that is no lesson", coded("<script>alert(1)</script>")],
  ["a lesson with a mistake", coded(lessonText(lesson).replace('"5 m"', '"5 kN"'))],
  ["a lesson of nothing", coded(" ")],
  ["a name that is no own one", coded('__proto__ = { x = "1" }\nconstructor = 1')],
  ["brackets without end", coded("a = " + "[".repeat(100_000))],
]) {
  test(`gives a message and loses nothing: ${what}`, () =>
    onPage({ lesson, hash: `#lesson=${link}` }, async (page) => {
      await page.waitForFunction(() => !document.getElementById("message").hidden);
      assert.notEqual(await message(page), "");
      assert.equal(await textOf(page), lessonText(lesson));
      assert.equal(await page.locator("#sheet script, #message script, #sheet img").count(), 0);
      // The same on a page that has been worked on.
      await follow(page, "");
      await field(page, "slice.at").fill("1.5 m");
      await field(page, "slice.at").press("Enter");
      const text = await textOf(page);
      await follow(page, `#lesson=${link}`);
      await page.waitForFunction(() => !document.getElementById("message").hidden);
      assert.equal(await textOf(page), text);
      assert.equal(await field(page, "slice.at").inputValue(), "1.5 m");
    }));
}

test("a link that is none of ours is left alone", () =>
  onPage({ lesson, hash: "#lesson=%3Cscript%3E" }, async (page) => assert.equal(await textOf(page), lessonText(lesson))));

/** The lesson with signs of HTML wherever it may say something of its own. */
function sharp() {
  const tag = `<img src=x onerror=alert(1)><script>alert(2)</script></script><!--]]>&quot;'\\"`;
  const said = tag.replaceAll("\\", "\\\\").replaceAll('"', '\\"');
  return lessonText(lesson)
    .replace(/^title = .*$/m, `title = "${said}"`)
    .replace(/^course = .*$/m, `course = "${said}"`)
    .replace(/^teaches = .*$/m, `teaches = "${said}"`)
    .replace(/^name = .*$/gm, `name = "<b>${said}"`)
    .replace(/"""\n/, () => `"""\n${said} [x](javascript:alert(3)) <svg onload=alert(4)>\n`);
}

test("what a lesson says stays text: in the page, in a link, in a saved page", async () => {
  const file = makePageOf(sharp());
  const inert = async (page) => {
    assert.deepEqual(await page.evaluate(() => [
      document.querySelectorAll("#sheet img, #sheet script, #title img, #title script, #sheet b b").length,
      document.querySelectorAll("[onerror], [onload], [onclick], a[href^='javascript' i]").length,
      document.scripts.length,
    ]), [0, 0, 3]);
    assert.match(await page.title(), /^<img src=x onerror/);
    assert.match(await page.locator("#title").textContent(), /<script>alert\(2\)/);
  };
  await onPage({ file }, async (page) => {
    await inert(page);
    await field(page, "slice.at").fill("1.5 m");
    await field(page, "slice.at").press("Enter");
    await inert(page);
    await button(page, "More").click();
    const saved = await offered(page, () => button(page, "Save this page").click());
    await onPage({ file: saved.file }, async (other) => {
      await inert(other);
      assert.match(await textOf(other), /at = "1\.5 m"/);
    });
  });
  await onPage({ lesson, hash: `#lesson=${coded(sharp())}` }, inert);
});

test("a value that looks like HTML is refused as text", () =>
  onPage({ lesson }, async (page) => {
    await field(page, "slice.at").fill("<img src=x onerror=alert(1)>");
    await field(page, "slice.at").press("Enter");
    assert.match(await message(page), /^< does not belong here/);
    assert.equal(await page.locator("#message *, #sheet img").count(), 0);
  }));

test("data kept by a page that somebody else made is taken only where it is sound", async () => {
  const page = readFileSync(pageOf(lesson), "utf8");
  const kept = JSON.parse(/<script type="application\/json" id="kept">(.*?)<\/script>/s.exec(page)[1]);
  for (const [name, more] of Object.entries({
    odd: { lecture: "x", ink: [1], dark: {}, inkAside: 7 },
    deep: { lecture: { on: true, scene: "<img>", shown: [["__proto__", 9]] }, ink: { version: 1, scenes: { "</script>": { strokes: "x" } } } },
  })) {
    const file = join(folder, `${name}.html`);
    const data = JSON.stringify({ ...kept, ...more, saved: true }).replaceAll("<", "\\u003c");
    writeFileSync(file, page.replace(/(id="kept">).*?(<\/script>)/s, (_, open, close) => open + data + close));
    await onPage({ file }, async (tab) => {
      assert.equal(await textOf(tab), lessonText(lesson));
      assert.equal(await tab.locator("#sheet img").count(), 0);
      await button(tab, "Lecture").click();
      await frame(tab);
    });
  }
});

test("a page cannot be made to run what was put into it", () =>
  onTab({}, async (page, faults) => {
    const file = join(folder, "foreign.html");
    writeFileSync(file, readFileSync(pageOf(lesson), "utf8").replace("<main>", "<main><img src=x onerror=\"document.title='run'\"><script>document.title='run'</script>"));
    await page.goto(`file://${file}`);
    await page.waitForFunction(() => document.documentElement.dataset.ready);
    assert.notEqual(await page.title(), "run");
    assert.ok(faults.some((fault) => /policy|Content Security/.test(fault)), "the policy stops it");
    faults.length = 0;
  }));
