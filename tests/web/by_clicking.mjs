import assert from 'node:assert/strict';
import { strangers, with_window } from './browser.mjs';
import { button, download, is_pdf, is_zip_of_pdfs, look_for_ways, open_demo, step } from './steps.mjs';

/** The whole job by clicking only: nothing is typed, no key is pressed. */
export default function by_clicking(it, world) {
  it('from the demo ground to three PDFs by clicking only', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page, false);
      await button(page, 'Next: the party').click();
      await page.getByLabel('What can be seen').selectOption('cloud');
      await button(page, 'Next: the way').click();

      // Start and end, one click each: nothing is armed first.
      const map = page.locator('#map .target');
      await map.click({ position: { x: 380, y: 420 } });
      await page.getByLabel('Name of Start').waitFor();
      await button(page, 'Go on: the end').click();
      await map.click({ position: { x: 560, y: 250 } });
      await page.getByLabel('Name of End').waitFor();
      assert.ok((await page.getByLabel('Name of End').inputValue()).length > 2, 'a place has the name of what it stands on');
      await button(page, 'More of Start').click();
      assert.match(await page.getByLabel('Place of Start').inputValue(), /^\d+ \d+$/);
      await page.locator('#point-1-told').filter({ hasText: /^\d{3} \d{3}, \d+ m$/ }).waitFor();

      await look_for_ways(page);
      const ways = page.getByRole('radio');
      assert.ok((await ways.count()) >= 1 && (await ways.count()) <= 3);
      const legs = await page.locator('[data-leg]').count();
      assert.ok(legs >= 1);
      await page.locator(`[data-leg="${legs}"]`).click();
      assert.equal(await page.getByRole('region', { name: 'Chosen leg' }).getByLabel(`Leg ${legs}`, { exact: true }).textContent(), String(legs));

      await button(page, 'Next: watch them walk').click();
      await button(page, 'Walk it').click();
      await page.getByRole('list', { name: 'What became of them' }).waitFor({ timeout: 60_000 });
      const watch = page.getByRole('region', { name: 'Watch them walk' });
      await button(watch, 'The leg before').click();
      await button(watch, 'Where all strayed').click();

      await button(page, 'Next: the paper').click();
      await button(page, 'Draw the paper').click();
      await page.getByRole('heading', { name: 'To print at 100 %' }).waitFor({ timeout: 60_000 });
      const print = page.getByRole('region', { name: 'To print at 100 %' }).getByRole('link');
      assert.ok((await print.count()) >= 3, 'three PDFs or more');
      const names = [];
      for (let i = 0; i < (await print.count()); i++) {
        const file = await download(page, () => print.nth(i).click());
        if (file.name.endsWith('.zip')) is_zip_of_pdfs(file);
        else is_pdf(file);
        names.push(file.name);
      }
      for (const wanted of ['sheet-1.pdf', 'card.pdf', 'home-note.pdf']) assert.ok(names.includes(wanted), `${wanted} in ${names}`);

      const other = page.getByRole('region', { name: 'For other programs' });
      const gpx = await download(page, () => other.locator('a[href$=".gpx"]').click());
      assert.match(gpx.bytes.toString(), /<gpx[\s>]/);
      const geojson = await download(page, () => other.locator('a[href$=".geojson"]').click());
      assert.equal(JSON.parse(geojson.bytes.toString()).type, 'FeatureCollection');

      // Each step can be gone back to, and says what it holds.
      for (const name of ['Ground', 'Party', 'Way', 'Rehearse', 'Paper']) {
        await step(page, name).click();
        assert.equal(await step(page, name).getAttribute('aria-current'), 'step');
      }
      assert.deepEqual(strangers(world.program.pid), [], 'the program talks to this machine only');
    });
  });
}
