import assert from 'node:assert/strict';
import { launch, start_program, with_window } from './browser.mjs';
import { button, download, look_for_ways, open_demo, step } from './steps.mjs';

/** What is known of each leg of the chosen way, as the program tells it. */
async function legs_of(page, what) {
  let told = null;
  const hear = async (r) => {
    if (/\/api\/ways\/\w+$/.test(r.url()) && r.ok()) told = (await r.json().catch(() => null)) ?? told;
  };
  page.on('response', hear);
  await what();
  for (const until = Date.now() + 20_000; !told && Date.now() < until;) await page.waitForTimeout(50);
  page.off('response', hear);
  return told.ways.find((w) => w.name === told.picked).legs
    .map((l) => [l.from, l.to, l.words.bearing, l.length_m, l.minutes, l.double_paces, l.certainty]);
}

/** A trip is taken to another machine: one file, and the same way is found there. */
export default function another_machine(it, world) {
  it('the whole trip with its ground opens on a machine that has neither, and the same way is found', async () => {
    let file, here;
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      here = await legs_of(page, () => look_for_ways(page));
      await button(page, /^Trip:/).click();
      file = await download(page, () => page.getByRole('dialog').getByRole('link', { name: 'The whole trip with its ground' }).click());
      assert.match(file.name, /\.zip$/);
    });
    const other = await start_program(), browser = await launch();
    try {
      await with_window(browser, `${other.url}#/-/ground`, async (page) => {
        await page.getByRole('heading', { name: 'No ground yet' }).waitFor();
        await button(page, /^Trip/).first().click();
        await page.getByRole('dialog').locator('input[type=file]').setInputFiles([{ name: file.name, mimeType: 'application/zip', buffer: file.bytes }]);
        await page.getByText('Its ground came with it.').waitFor();
        await button(page, 'Open it as a trip').click();
        await page.locator('#map .target canvas').first().waitFor({ timeout: 60_000 });
        await button(page, /^Trip: Skarrow round/).waitFor();
        await step(page, 'Ground').click();
        await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor();
        await step(page, 'Way').click();
        const there = await legs_of(page, () => look_for_ways(page));
        assert.deepEqual(there, here, 'the same legs, to the last figure');
      });
    } finally {
      await browser.close();
      await other.stop();
    }
  });
}
