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
}
