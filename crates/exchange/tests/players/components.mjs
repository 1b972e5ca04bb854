// The player made of web components.

import { answer, onPage, settled, shown } from "./browser.mjs";

const HEAD = `<script type="module" src="/players/@citolab/qti-components/cdn/index.js"></script>`;

export const name = "web components";

// DIFFERS: this player takes every element out of its namespace, and a formula is a row of letters in it. The namespaces of
// the package are checked in ../package.rs; another version of the player that keeps them will fail here.
export const showsFormulae = false;

/** Plays an item, once for each of the attempts. @returns the variables, what is said, what is shown after the last */
export async function play(item, ...attempts) {
  let result;
  await onPage(HEAD, `<qti-item><item-container item-url="/package/${item}.xml"></item-container></qti-item>`, async (page) => {
    await page.locator("qti-assessment-item").waitFor();
    for (const answers of attempts) {
      await answer(page, answers, {
        fields: page.locator("qti-text-entry-interaction input"),
        close: page.getByRole("button", { name: "Close" }),
        choice: ({ name }) => page.locator(`qti-simple-choice[identifier="${name}"]`),
      });
      const outcomes = await page.locator("qti-assessment-item").evaluate((element) => {
        element.processResponse();
        return Object.fromEntries(element.variables.map(({ identifier, value }) => [identifier, value]));
      });
      await settled(page);
      // The feedback that the player has opened.
      const said = await page.locator("qti-modal-feedback").evaluateAll((all) =>
        all.filter((modal) => modal.shadowRoot.querySelector("dialog[open]")).map((modal) => modal.innerText.trim()));
      result = { outcomes, said, ...(await shown(page)) };
    }
  });
  return result;
}
