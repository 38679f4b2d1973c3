import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, open_demo } from './steps.mjs';

/** The page in German, by the program's own table of words; the choice is kept. */
export default function languages(it, world) {
  it('the page speaks German and keeps to it', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await button(page, /^Trip:/).click();
      await page.getByLabel('Deutsch').check();
      await page.getByRole('dialog').getByRole('button').first().click();
      await page.getByRole('navigation', { name: 'Schritte', exact: true }).waitFor();
      assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
      const { words } = await page.evaluate(async () => (await fetch('/api/words?language=de')).json());
      await page.reload();
      await page.getByRole('navigation', { name: 'Schritte', exact: true }).waitFor();
      for (const [english, german] of [['Way', words.Way], ['Paper', words.Paper]]) {
        assert.notEqual(english, german);
        await page.getByRole('link', { name: new RegExp(`^${german}`) }).first().waitFor();
      }
      await button(page, new RegExp(`^${words['Where are we?'].replace('?', '\\?')}`)).click();
      await page.getByRole('heading', { name: words['Nothing is told yet'] }).waitFor();
      for (const word of ['Ground falls to', 'We stand on', 'Beside us', 'spur', 'hollow', 'steep'])
        assert.ok(await page.getByText(words[word]).first().isVisible(), word);
    });
  });

  it('no step says anything in English when the page and the trip are German', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await page.evaluate(() => localStorage.setItem('lodeway:language', 'de'));
      await page.reload();
      const { words } = await page.evaluate(async () => (await fetch('/api/words?language=de')).json());
      const w = (english) => words[english];
      /** Little words of English that no German sentence and no name of the invented ground has. */
      const english = /\b(the|and|with|your|from|of|are|is|this|that|which|it|on|to|no|not|in 100|by keyboard|leg|legs)\b/;
      const left = async (where) => {
        const said = await page.evaluate(() => {
          const out = [];
          const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          for (let n = walk.nextNode(); n; n = walk.nextNode()) {
            if (n.parentElement.closest('script, style, code, [lang="en"], input, .trip b, .sources li, .letter')) continue;
            if (n.textContent.trim()) out.push(n.textContent.trim().replace(/\s+/g, ' '));
          }
          for (const e of document.querySelectorAll('[aria-label], [placeholder], [title], img[alt]'))
            for (const a of ['aria-label', 'placeholder', 'title', 'alt']) if (e.getAttribute(a)) out.push(e.getAttribute(a));
          return out;
        });
        const still = said.filter((text) => english.test(text) || (words[text] && words[text] !== text && !Object.values(words).includes(text)));
        return still.map((text) => `${where}: ${text}`);
      };
      const found = [];
      const look = async (where) => found.push(...(await left(where)));
      await button(page, w('Open with the example round')).waitFor();
      await look('empty');
      await button(page, w('Open with the example round')).click();
      await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor();
      await look('ground');
      const step = (name) => page.getByRole('navigation', { name: w('Steps'), exact: true }).getByRole('link', { name: new RegExp(`^${w(name)}`) });
      await step('Party').click();
      for (const more of await page.locator('main summary').all()) await more.click();
      await look('party');
      await step('Way').click();
      await button(page, w('Look for ways')).waitFor();
      await look('places');
      await button(page, w('Draw an area')).click();
      await look('drawing an area');
      await button(page, w('Leave it')).click();
      await button(page, w('Look for ways')).click();
      await page.getByRole('region', { name: w('Chosen leg') }).waitFor();
      await page.getByRole('button', { name: w('Stop'), exact: true }).waitFor({ state: 'hidden' });
      for (const more of await page.locator('main summary').all()) await more.click();
      const count = await page.locator('[data-leg]').count();
      for (let leg = 1; leg <= count; leg++) {
        await page.locator(`[data-leg="${leg}"]`).click();
        await look(`leg ${leg}`);
      }
      // The verdict is the paper's: its headline is that of the table.
      const marks = ['within your limits', 'close to your limits', 'outside your limits', 'not judged'].map(w);
      assert.ok(marks.includes(await page.locator('.verdict .mark b').innerText()), 'a German verdict');
      await button(page, new RegExp(`^${w('If the day changes')}`)).click();
      await page.getByRole('article').first().waitFor();
      await look('if the day changes');
      await button(page, w('Back to the way')).click();
      await button(page, new RegExp(`^${w('Where are we?').replace('?', '\\?')}`)).click();
      await page.getByRole('heading', { name: w('Nothing is told yet') }).waitFor();
      await look('where are we, nothing told');
      await page.getByLabel(w('Minutes walked since')).fill('25');
      await page.getByLabel(w('Last sure place'), { exact: true }).selectOption({ label: 'Quenna Hause' });
      await button(page, w('steep')).click();
      await page.getByRole('region', { name: w('Ask next') }).waitFor();
      await page.waitForFunction(() => !document.querySelector('.where.old'));
      await look('where are we, told');
      await button(page, w('Back')).click();
      await button(page, new RegExp(`^${w('Words and marks')}`)).click();
      for (const more of await page.locator('main summary').all()) await more.click();
      await look('words and marks');
      await step('Rehearse').click();
      await button(page, w('Walk it')).click();
      await page.getByRole('region', { name: w('Watch them walk') }).waitFor({ timeout: 60_000 });
      for (const more of await page.locator('main summary').all()) await more.click();
      await look('rehearse');
      await step('Paper').click();
      await button(page, w('Draw the paper')).click();
      await page.getByRole('heading', { name: w('What will be printed') }).waitFor({ timeout: 60_000 });
      for (const more of await page.locator('main summary').all()) await more.click();
      await look('paper');
      await page.locator('header .trip').click();
      await page.getByRole('dialog').waitFor();
      await look('trip');
      assert.deepEqual([...new Set(found)], []);
    });
  });
}
