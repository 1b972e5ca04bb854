// The packages that `glueline papers --qti` makes for a class, played in both players as a student would.
//
//   GLUELINE=path/to/glueline, and what browser.mjs needs

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";
import { open } from "./browser.mjs";
import * as components from "./components.mjs";
import * as vue from "./vue.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const glueline = resolve(process.env.GLUELINE ?? "target/release/glueline");
const folder = mkdtempSync(join(tmpdir(), "papers-"));
after(() => rmSync(folder, { recursive: true, force: true }));

copyFileSync(join(here, "lesson.toml"), join(folder, "lesson.toml"));
writeFileSync(join(folder, "class.csv"), "student id,name\n1,Ann Solver\n2,Bo Reader\n");
// A secret of its own, so that every run plays the same papers.
writeFileSync(join(folder, "term.secret"), "0123456789abcdef0123456789abcdef");
const made = (...more) => execFileSync(glueline, ["papers", "lesson.toml", "class.csv", ...more], { cwd: folder });
made("-o", "out", "--qti", "3.0");

/** The packages, unpacked, by the numbers of their papers, with the P of each in kN from its lesson. */
const papers = readdirSync(join(folder, "out/keys")).filter((name) => name.endsWith("-qti-3.0-with-key.zip")).map((name) => {
  const number = /^paper-(.+)-qti-/.exec(name)[1];
  const unpacked = join(folder, "packages", number);
  execFileSync("python3", ["-m", "zipfile", "-e", join(folder, "out/keys", name), unpacked]);
  const [, P] = /^P = "([0-9.]+) kN"/m.exec(readFileSync(join(folder, "out/lessons", `${number}.toml`), "utf8"));
  return { number, unpacked, P: Number(P) };
});

test("each student has a package with numbers of its own", () => {
  assert.equal(papers.length, 2);
  assert.notEqual(papers[0].P, papers[1].P);
});

const near = (value, share) => (value * (1 + share)).toPrecision(6);

// One paper in each player: what a player makes of an item does not hang on the numbers.
for (const [place, player] of [components, vue].entries()) {
  const { number, unpacked, P } = papers[place];
  const says = `${player.name}, paper ${place + 1}`;
  const item = (question) => `paper-${number}-${question}`;
  const [right, V] = [0.75 * P, -0.25 * P];
  const tau = (shear) => 0.48 * shear;
  const play = (question, typed) => {
    open(unpacked);
    return player.play(item(question), typed);
  };

  test(`${says}: a positive right answer, near and wrong ones`, async () => {
    // 1 % is the tolerance of the course where the lesson says nothing.
    for (const [typed, marks] of [[String(right), 2], [near(right, 0.009), 2], [near(right, -0.013), 0]]) {
      const { outcomes, pictures } = await play(1, typed);
      assert.equal(Number(outcomes.SCORE), marks, typed);
      assert.equal(Number(outcomes.MAXSCORE), 2);
      assert.ok(pictures.length >= 2 && pictures.every((width) => width > 300), `${pictures}`);
    }
  });

  test(`${says}: half of the load is known for what it is`, async () => {
    const { outcomes, said } = await play(1, String(P / 2));
    assert.equal(Number(outcomes.SCORE), 0);
    assert.equal(said.length, 1);
    assert.match(said[0], /do not stand symmetrically/);
  });

  test(`${says}: negative right answers, and what follows from a wrong one`, async () => {
    const each = async (...typed) => {
      const { outcomes } = await play(2, typed);
      return ["part-2a", "part-2b"].map((part) => Number(outcomes[`SCORE-${part}`]));
    };
    assert.deepEqual(await each(String(V), String(tau(V))), [1, 2]);
    assert.deepEqual(await each(near(V, 0.013), near(tau(V), 0.025)), [0, 0]);
    // No mistake that is known: 1.3 V, and the tau that it leads to.
    assert.deepEqual(await each(String(1.3 * V), String(tau(1.3 * V))), [0, 2]);
  });

  test(`${says}: the shear force without its sign is told, and credited in what follows`, async () => {
    const { outcomes, said } = await play(2, [String(-V), String(tau(-V))]);
    assert.equal(Number(outcomes["SCORE-part-2a"]), 0);
    assert.equal(Number(outcomes["SCORE-part-2b"]), 2);
    assert.equal(said.length, 2);
    assert.ok(said.some((words) => /sign/.test(words)), `${said}`);
  });
}
