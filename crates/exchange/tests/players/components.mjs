// The player made of web components.

import { onPage, shown } from "./browser.mjs";

const HEAD = `<script type="module" src="/players/@citolab/qti-components/cdn/index.js"></script>`;

export const name = "web components";

// DIFFERS: this player takes every element out of its namespace, and a formula is a row of letters in it. The namespaces of
// the package are checked in ../package.rs; another version of the player that keeps them will fail here.
export const showsFormulae = false;

/** Plays an item: `answers` are typed into its fields in order, or name its choice. @returns the variables, what is said, what is shown */
export async function play(item, answers) {
  let result;
  await onPage(HEAD, `<qti-item><item-container item-url="/package/${item}.xml"></item-container></qti-item>`, async (page) => {
    await page.locator("qti-assessment-item").waitFor();
    const fields = page.locator("qti-text-entry-interaction input");
    for (const [place, answer] of [answers].flat().entries()) {
      if (typeof answer === "object") {
        await page.locator(`qti-simple-choice[identifier="${answer.name}"]`).click();
      } else if (answer !== "") {
        await fields.nth(place).click();
        await page.keyboard.type(answer);
        await page.keyboard.press("Tab");
      }
    }
    const outcomes = await page.locator("qti-assessment-item").evaluate((element) => {
      element.processResponse();
      return Object.fromEntries(element.variables.map(({ identifier, value }) => [identifier, value]));
    });
    // The feedback that the player has opened.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    const said = await page.locator("qti-modal-feedback").evaluateAll((all) =>
      all.filter((modal) => modal.shadowRoot.querySelector("dialog[open]")).map((modal) => modal.innerText.trim()));
    result = { outcomes, said, ...(await shown(page)) };
  });
  return result;
}
