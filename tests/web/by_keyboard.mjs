import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { download, is_pdf, tab_to, ways_found } from './steps.mjs';

/** The whole job by keyboard only: no pointer is used at all. */
export default function by_keyboard(it, world) {
  it('the whole job by keyboard only', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      const key = (name) => page.keyboard.press(name);
      const press = async (name) => {
        await tab_to(page, name);
        await key('Enter');
      };
      await page.getByRole('button', { name: 'Open the ground alone' }).waitFor();
      await press(/^Open the ground alone/);
      await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor({ timeout: 60_000 });
      await press(/^Next: the party/);
      await tab_to(page, /^How many walk/);
      await page.keyboard.type('3');
      await press(/^Next: the way/);

      // The start is typed, the end is set under the cross of the map.
      await tab_to(page, /^Type the start/);
      await page.keyboard.type('481949 6050540');
      await key('Enter');
      await page.getByLabel('Name of Start').waitFor();
      await press(/^Map: add the end there/);
      await press(/^To the map/);
      for (let i = 0; i < 3; i++) await key('ArrowUp');
      await page.waitForTimeout(400);
      await key('Enter');
      await page.getByLabel('Name of End').waitFor();

      await press(/^Look for ways/);
      await ways_found(page);
      await tab_to(page, /^Leg 1, /);
      await key('End');
      const last = await page.evaluate(() => Number(document.activeElement?.getAttribute('data-leg')));
      assert.ok(last >= 1);
      assert.equal(await page.getByRole('region', { name: 'Chosen leg' }).getByLabel(`Leg ${last}`, { exact: true }).textContent(), String(last));
      await key('Home');
      assert.equal(await page.evaluate(() => document.activeElement?.getAttribute('data-leg')), '1');

      await press(/^Next: watch them walk/);
      await press(/^Walk it/);
      await page.getByRole('list', { name: 'What became of them' }).waitFor({ timeout: 60_000 });
      await press(/^Next: the paper/);
      await press(/^Draw the paper/);
      await page.getByRole('heading', { name: 'To print at 100 %' }).waitFor({ timeout: 60_000 });
      for (const name of [/^Map sheet|^Sheet/, /^Route card/, /^Home note/]) {
        await tab_to(page, name);
        is_pdf(await download(page, () => key('Enter')));
      }
    });
  });

  it('the map, the messages and the trip have no trap', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await page.getByRole('button', { name: /^Trip:/ }).waitFor();
      await tab_to(page, /^Trip:/);
      await page.keyboard.press('Enter');
      await page.getByRole('dialog').waitFor();
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'hidden' });
      assert.match(await page.evaluate(() => document.activeElement?.textContent ?? ''), /^Trip:/);
      // Twice round the page: every stop is left again.
      const first = await tab_to(page, /^Ground/);
      assert.ok(first);
      await tab_to(page, /^Ground/);
    });
  });
}
