// What the browser tests share: the command, the pages of the built-in lessons, a browser that may ask nobody.
//
// Environment: GLUELINE the command; PLAYWRIGHT a node_modules folder with playwright-core; BROWSER a Chromium.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const need = (name) => process.env[name] ?? (() => { throw new Error(`set ${name}`); })();
export const command = need("GLUELINE");
const { chromium } = createRequire(join(need("PLAYWRIGHT"), "here.js"))("playwright-core");

export const lessonsFolder = join(dirname(fileURLToPath(import.meta.url)), "../../../../lessons");
export const lessons = readdirSync(lessonsFolder).filter((name) => name.endsWith(".toml")).map((name) => basename(name, ".toml"));
export const folder = mkdtempSync(join(tmpdir(), "board-"));

/** Runs the command; what it prints. */
export const run = (...words) => execFileSync(command, words, { encoding: "utf8", maxBuffer: 1e8 });

/** The page of a built-in lesson, made once. @returns {string} its address */
const made = new Map();
export function pageOf(lesson) {
  if (!made.has(lesson)) {
    const file = join(folder, `${lesson}.html`);
    run("page", join(lessonsFolder, `${lesson}.toml`), "-o", file);
    made.set(lesson, pathToFileURL(file).href);
  }
  return made.get(lesson);
}

export const launch = () => chromium.launch({ executablePath: need("BROWSER"), args: ["--no-sandbox"] });

/** Opens an address in a context of its own, without a network, and waits until the board answers. What goes wrong on the page is gathered. */
export async function open(browser, address, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, ...options });
  const wrong = [];
  if (address.startsWith("file:")) {
    await context.setOffline(true);
    context.on("request", (request) => { if (!/^(file|data|blob):/.test(request.url())) wrong.push(`asked for ${request.url()}`); });
  }
  const page = await context.newPage();
  page.on("pageerror", (error) => wrong.push(error.message));
  page.on("console", (message) => { if (["error", "warning"].includes(message.type())) wrong.push(message.text()); });
  await page.goto(address);
  await page.waitForFunction(() => document.documentElement.dataset.ready);
  return { context, page, wrong };
}
