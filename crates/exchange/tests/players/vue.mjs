// The player that is a Vue component.

import { itemText, onPage, shown } from "./browser.mjs";

const HEAD = `<link rel="stylesheet" href="/players/qti3-item-player/dist/qti3Player.css">
<script src="/players/vue/dist/vue.min.js"></script><script src="/players/qti3-item-player/dist/qti3Player.umd.min.js"></script>`;

export const name = "Vue";

export const showsFormulae = true;

/** Plays an item: `answers` are typed into its fields in order, or name its choice. @returns the variables, what is said, what is shown */
export async function play(item, answers) {
  let result;
  await onPage(HEAD, `<base href="/package/"><div id="player"></div>`, async (page) => {
    await page.evaluate((xml) => new Promise((ready) => {
      const configuration = {
        guid: "1", status: "interacting", pnp: { textAppearance: { colorStyle: "qti3-player-color-default" } },
        sessionControl: { max_attempts: 0, show_feedback: true, validate_responses: false },
      };
      new Vue({
        render: (h) => h(window.qti3Player.default ?? window.qti3Player, {
          on: {
            notifyQti3PlayerReady: (player) => { window.player = player; player.loadItemFromXml(xml, configuration); },
            notifyQti3ItemReady: () => ready(),
            notifyQti3EndAttemptCompleted: (data) => window.ended?.(data),
          },
        }),
      }).$mount("#player");
    }), itemText(item));
    const fields = page.locator("input[type=text]");
    for (const [place, answer] of [answers].flat().entries()) {
      if (typeof answer === "object") {
        await page.locator("li, [role=radio]").filter({ hasText: answer.words }).first().click();
      } else if (answer !== "") {
        await fields.nth(place).click();
        await page.keyboard.type(answer);
        await page.keyboard.press("Tab");
      }
    }
    const outcomes = await page.evaluate(async () => {
      const data = await new Promise((done) => { window.ended = done; window.player.endAttempt("end"); });
      const { outcomeVariables, responseVariables } = data.state;
      return Object.fromEntries([...responseVariables, ...outcomeVariables].map(({ identifier, value }) => [identifier, value]));
    });
    // The feedback that the player has opened.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    const said = await page.locator(".qti3-player-modal.show .qti-content-body").allInnerTexts();
    result = { outcomes, said: said.map((words) => words.trim()), ...(await shown(page)) };
  });
  return result;
}
