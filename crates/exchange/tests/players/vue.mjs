// The player that is a Vue component.

import { answer, itemText, onPage, settled, shown } from "./browser.mjs";

const HEAD = `<link rel="stylesheet" href="/players/qti3-item-player/dist/qti3Player.css">
<script src="/players/vue/dist/vue.min.js"></script><script src="/players/qti3-item-player/dist/qti3Player.umd.min.js"></script>`;

export const name = "Vue";

export const showsFormulae = true;

/** Plays an item, once for each of the attempts. @returns the variables, what is said, what is shown after the last */
export async function play(item, ...attempts) {
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
    for (const answers of attempts) {
      await answer(page, answers, {
        fields: page.locator("input[type=text]"),
        close: page.locator(".qti3-player-modal.show").getByRole("button", { name: "OK" }),
        choice: ({ words }) => page.locator("li, [role=radio]").filter({ hasText: words }).first(),
      });
      const outcomes = await page.evaluate(async () => {
        const data = await new Promise((done) => { window.ended = done; window.player.endAttempt("end"); });
        const { outcomeVariables, responseVariables } = data.state;
        return Object.fromEntries([...responseVariables, ...outcomeVariables].map(({ identifier, value }) => [identifier, value]));
      });
      await settled(page);
      // The feedback that the player has opened.
      const said = await page.locator(".qti3-player-modal.show .qti-content-body").allInnerTexts();
      result = { outcomes, said: said.map((words) => words.trim()), ...(await shown(page)) };
    }
  });
  return result;
}
