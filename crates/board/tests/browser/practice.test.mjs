// A paper to practise with on the page: by keyboard, with the network cut, kept through a reload.

import assert from "node:assert/strict";
import { test } from "node:test";
import { onPage } from "./real-page.mjs";

const part = (page, label) => page.locator(`form.part[data-part="${label}"]`);
const verdict = (page, label) => part(page, label).locator(".found").getAttribute("data-verdict");

/** Shows the paper of a number, by the keyboard alone. */
async function choose(page, number) {
  await page.locator("#practice-go").focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Control+a");
  await page.keyboard.type(number);
  await page.keyboard.press("Enter");
}

/** What the solution of the first part says is right, with its unit. */
async function solution(page, label) {
  const hint = part(page, label).locator("button[data-hint]");
  const said = [];
  for (; await hint.count();) {
    said.push(await hint.innerText());
    await hint.focus();
    await page.keyboard.press("Enter");
  }
  assert.ok(said.length >= 3, said.join(", "));
  assert.match(said.at(-1), /^Show the solution/);
  return part(page, label).locator(".hints > li").last().innerText();
}

test("a paper is chosen, answered and looked at by the keyboard, with hints before the solution", () => onPage({ lesson: "conveyor" }, async (page) => {
  await choose(page, "7");
  assert.equal(await page.evaluate(() => document.activeElement.id), "practice-title");
  const load = /w = (\d+) kN\/m/.exec((await page.locator("#practice-paper svg").first().textContent()).replaceAll("\u00a0", " "));
  const span = /each span is ([\d.]+)/.exec((await part(page, "1").locator("xpath=..").innerText()).replaceAll("\u00a0", " "));
  // Two equal spans under an even load: the end support carries 3/8 of what lies on one span (AISC manual, from memory).
  const right = (3 / 8) * Number(load[1]) * Number(span[1]);
  const input = part(page, "1").locator(".answer input");
  const answer = async (text) => {
    await input.fill(text);
    await page.keyboard.press("Enter");
    return verdict(page, "1");
  };
  assert.equal(await answer(`${right} kN`), "right");
  assert.equal(await answer(`${right * 1000} N`), "right");
  assert.equal(await answer(`${-right} kN`), "slip");
  assert.equal(await answer("1.2345 kN"), "unknown");
  await input.fill("1.5 kN");
  assert.equal(await part(page, "1").locator(".found").innerText(), "", "what was found belongs to the old answer");
  assert.match(await solution(page, "1"), /kN/);
}));

test("a mistake is told with its step and its drawing, and a choice is looked at", () => onPage({ lesson: "conveyor" }, async (page) => {
  await choose(page, "7");
  const verdicts = [];
  const boxes = part(page, "4").locator(".choices input");
  for (let at = 0; at < (await boxes.count()); at += 1) {
    await boxes.nth(at).check();
    await part(page, "4").locator("button[type=submit]").click();
    verdicts.push(await verdict(page, "4"));
    if (verdicts.at(-1) === "mistake") assert.ok(await part(page, "4").locator(".found svg").count());
  }
  assert.equal(verdicts.filter((one) => one === "right").length, 1, verdicts.join());
  assert.equal(verdicts.filter((one) => one === "mistake").length, verdicts.length - 1, verdicts.join());
}));

test("a number gives the same paper again, and answers outlive a reload", () => onPage({ lesson: "conveyor" }, async (page) => {
  const given = () => page.locator("#practice-paper svg").first().textContent();
  await choose(page, "12");
  const first = await given();
  await part(page, "1").locator(".answer input").fill("2,200 N");
  await choose(page, "13");
  assert.notEqual(await given(), first);
  assert.equal(await part(page, "1").locator(".answer input").inputValue(), "", "another paper, other answers");
  await choose(page, "12");
  assert.equal(await given(), first);
  await part(page, "1").locator(".answer input").fill("1800 N");
  await page.waitForTimeout(400); // what is kept is kept a moment later
  await page.reload();
  await page.waitForSelector("html[data-ready]");
  assert.equal(await given(), first);
  assert.equal(await part(page, "1").locator(".answer input").inputValue(), "1800 N");
}));

test("what is no number of a paper is refused, and nothing of what was there is lost", () => onPage({ lesson: "conveyor" }, async (page) => {
  await choose(page, "4");
  const before = await page.locator("#practice-paper").innerHTML();
  for (const number of ["0", "-3", "seven", "1e3", "1234567", "<b>1</b>"]) {
    await choose(page, number);
    assert.match(await page.locator("#practice-refusal").innerText(), /whole number/);
    assert.equal(await page.locator("#practice-paper").innerHTML(), before);
  }
}));

test("a lesson in which nothing varies is practised with its own numbers", () => onPage({ lesson: "porch-beam" }, async (page) => {
  await page.locator("#practice-go").click();
  await page.keyboard.press("Enter");
  assert.equal(await page.locator("#practice-title").innerText(), "The questions of this lesson");
  // An exam on a lesson of which nothing varies would have the same: nobody is told that none has.
  const words = await page.locator("#practice > p").first().innerText();
  assert.match(words, /^These questions have the numbers that are worked out above/);
  assert.doesNotMatch(words, /exam/);
  assert.match(await page.locator("#practice-paper svg").first().textContent(), /2000.lb/);
}));
