import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, download, is_pdf, step, ways_found, wholly_read } from './steps.mjs';

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

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
      const slip = page.getByRole('region', { name: 'On the map here' });
      await slip.waitFor();
      await button(page, 'Look for ways').click();
      await ways_found(page);
      // The map is free for the ways, and the line of six steps has gone on past what has defaults.
      assert.equal(await slip.count(), 0, 'the slip still covers the map');
      assert.match(await page.getByRole('region', { name: 'A first trip in six steps' }).innerText(), /^Next: Rehearse\./);
      await step(page, 'Paper').click();
      await button(page, 'Draw the paper').click();
      await page.getByRole('heading', { name: 'To print at 100 %' }).waitFor({ timeout: 60_000 });
      is_pdf(await download(page, () => page.locator('a[href$="everything.pdf"]').first().click()));
      const clicks = await page.evaluate(() => window.clicks);
      world.note(`a first walk through: ${clicks} clicks`);
      assert.ok(clicks <= 8, `${clicks} clicks`);
    });
  });

  it('the same on a phone in ten taps, each on what is in sight', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      let taps = 0;
      const tap = async (what, at) => {
        if (!at) assert.ok(await what.evaluate((e) => { const r = e.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; }), `${await what.innerText()} is out of sight`);
        await what.tap(at);
        taps++;
      };
      await button(page, 'Open the ground alone').waitFor();
      await tap(button(page, 'Open the ground alone'));
      await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor({ timeout: 180_000 });
      await tap(page.getByRole('link', { name: /^Way/ }).locator('visible=true').first());
      const map = page.locator('#map .target');
      await map.locator('canvas').first().waitFor();
      const slip = page.getByRole('region', { name: 'On the map here' });
      for (const [position, role] of [[{ x: 130, y: 205 }, 'Start'], [{ x: 250, y: 120 }, 'End']]) {
        await tap(map, { position });
        await button(slip, `${role} here`).waitFor();
        await tap(button(slip, `${role} here`));
        await slip.getByText(`${role} is here`).waitFor();
      }
      await tap(button(page, 'Look for ways'));
      await ways_found(page);
      assert.equal(await slip.count(), 0, 'the slip still covers the map');
      await page.evaluate(() => scrollTo(0, 0));
      await tap(page.getByRole('link', { name: /^Paper/ }).locator('visible=true').first());
      await tap(button(page, 'Draw the paper'));
      await page.getByRole('heading', { name: 'To print at 100 %' }).waitFor({ timeout: 60_000 });
      is_pdf(await download(page, () => tap(page.locator('a[href$="everything.pdf"]').first())));
      world.note(`a first walk through on a phone: ${taps} taps`);
      assert.ok(taps <= 10, `${taps} taps`);
    }, phone);
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
        await wholly_read(page);
        await page.goto('about:blank');
      }
      took.sort((a, b) => a - b);
      world.note(`usable after ${took.join(', ')} ms, ${(bytes / 1000).toFixed(0)} kB sent`);
      assert.ok(bytes <= 420_000, `${bytes} bytes`);
      // The time is told and held to nothing: a machine that builds meanwhile is slower. 0.6 s when quiet is not proved here.
    });
  });
}
