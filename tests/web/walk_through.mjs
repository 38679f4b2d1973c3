import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, download, is_pdf, step, ways_found } from './steps.mjs';

/** A first walk through the page, from an empty start to a printed card, by the fewest clicks; they are counted by the browser. */
export default function walk_through(it, world) {
  it('from an empty start to the printed set in eight clicks', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await page.evaluate(() => {
        window.clicks = 0;
        addEventListener('click', (e) => e.isTrusted && window.clicks++, true);
      });
      await button(page, 'Open the ground alone').click();
      await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor({ timeout: 180_000 });
      await step(page, 'Way').click();
      const map = page.locator('#map .target');
      await map.locator('canvas').first().waitFor();
      await map.click({ position: { x: 380, y: 420 } });
      await page.getByLabel('Name of Start').waitFor();
      await map.click({ position: { x: 560, y: 250 } });
      await page.getByLabel('Name of End').waitFor();
      await button(page, 'Look for ways').click();
      await ways_found(page);
      await step(page, 'Paper').click();
      await button(page, 'Draw the paper').click();
      await page.getByRole('heading', { name: 'To print at 100 %' }).waitFor({ timeout: 60_000 });
      is_pdf(await download(page, () => page.locator('a[href$="everything.pdf"]').first().click()));
      const clicks = await page.evaluate(() => window.clicks);
      world.note(`a first walk through: ${clicks} clicks`);
      assert.ok(clicks <= 8, `${clicks} clicks`);
    });
  });

  it('what is sent is small, and the ground can be opened without the browser\'s store', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      let bytes = 0;
      const client = await page.context().newCDPSession(page);
      await client.send('Network.enable');
      client.on('Network.loadingFinished', (e) => (bytes += e.encodedDataLength));
      const took = [];
      for (let i = 0; i < 5; i++) {
        await client.send('Network.clearBrowserCache');
        bytes = 0;
        const begun = Date.now();
        await page.goto(world.begin);
        await button(page, 'Open the ground alone').waitFor();
        took.push(Date.now() - begun);
        await page.waitForLoadState('load');
        await page.goto('about:blank');
      }
      took.sort((a, b) => a - b);
      world.note(`usable after ${took.join(', ')} ms, ${(bytes / 1000).toFixed(0)} kB sent`);
      assert.ok(bytes <= 420_000, `${bytes} bytes`);
      // The time is told and held to nothing: a machine that builds meanwhile is slower. 0.6 s when quiet is not proved here.
    });
  });
}
