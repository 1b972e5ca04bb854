// The 2.1 package, brought to 3.0 by a converter that is not ours, is our 3.0 package: so the names of 3.0 are not only ours, and
// what the players were seen to do with one they do with the other.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { onPage, packages, players } from "./browser.mjs";

/**
 * An XML text as nested lists, without comments and space between elements, and without names of fields for who cannot see: 2.1 has no
 * attributes of WAI-ARIA that could be converted.
 */
const nested = (page, text) => page.evaluate((text) => {
  const xml = new DOMParser().parseFromString(text, "application/xml");
  if (xml.querySelector("parsererror")) throw new Error(xml.documentElement.textContent);
  const list = (element) => {
    const attributes = [...element.attributes]
      .filter(({ name }) => !/^xmlns|schemaLocation$|^aria-/.test(name))
      .map(({ name, value }) => `${name}=${value}`);
    const children = [...element.childNodes].map((child) => (child.nodeType === Node.ELEMENT_NODE ? list(child) : child.textContent.trim()));
    return [`{${element.namespaceURI}}${element.localName}`, attributes.sort(), children.filter((child) => child !== "")];
  };
  return list(xml.documentElement);
}, text);

/** DIFFERS: the converter empties every outcome first, and asks that a choice be made; the standard does neither. */
function withoutAdditions([name, attributes, children]) {
  const own = name.endsWith("}qti-response-processing")
    ? children.slice(children.findIndex(([first]) => first.endsWith("}qti-response-condition")))
    : children;
  return [
    name,
    attributes.filter((attribute) => attribute !== "min-choices=1"),
    own.map((child) => (typeof child === "string" ? child : withoutAdditions(child))),
  ];
}

test("the 2.1 package converted is the 3.0 package", async () => {
  const folder = mkdtempSync(join(tmpdir(), "converted-"));
  try {
    cpSync(join(packages, "2.1"), join(folder, "package"), { recursive: true });
    const converter = join(players, "@citolab/qti-convert/dist/qti-convert-folder.mjs");
    execFileSync(process.execPath, [converter, join(folder, "package")], { stdio: ["ignore", "ignore", "pipe"] });
    await onPage("", "", async (page) => {
      for (const file of ["tau-on-the-cut.xml", "centroid.xml", "chain.xml", "where.xml", "assessment-test.xml"]) {
        const converted = await nested(page, readFileSync(join(folder, "package-qti3", file), "utf8"));
        const ours = await nested(page, readFileSync(join(packages, "3.0", file), "utf8"));
        assert.ok(JSON.stringify(ours).length > 400, file);
        assert.deepEqual(withoutAdditions(converted), ours, file);
      }
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
