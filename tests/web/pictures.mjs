// The page in pictures, for docs: every step, wide and on a phone, light and dark.
//   LODEWAY=build/release/bin/lodeway node tests/web/pictures.mjs docs/pictures
import { join } from 'node:path';
import { launch, start_program, with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, step } from './steps.mjs';

const out = process.argv[2] ?? 'docs/pictures';
const sizes = {
  wide: { viewport: { width: 1440, height: 900 } },
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 1 },
};

const program = await start_program();
const browser = await launch();
try {
  for (const [size, options] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      await with_window(browser, `${program.url}#/-/ground`, async (page) => {
        let loading = 0;
        const tile = (r) => r.url().includes('/tiles/');
        page.on('request', (r) => tile(r) && loading++);
        page.on('requestfinished', (r) => tile(r) && loading--);
        page.on('requestfailed', (r) => tile(r) && loading--);
        const shoot = async (name) => {
          await page.evaluate(() => scrollTo(0, 0));
          await page.mouse.move(2, 2);
          await page.waitForTimeout(800);
          for (let still = 0; still < 4; still = loading ? 0 : still + 1) await page.waitForTimeout(250);
          await page.screenshot({ path: join(out, `page-${name}-${size}-${colorScheme}.jpg`), type: 'jpeg', quality: 62 });
        };
        if (colorScheme === 'light') await shoot('empty');
        await open_demo(page);
        await shoot('ground');
        await step(page, 'Party').click();
        await shoot('party');
        await step(page, 'Way').click();
        await shoot('plan');
        await look_for_ways(page);
        const aimed = page.locator('[data-leg].bar').last();
        await ((await aimed.count()) ? aimed : page.locator('[data-leg]').last()).click();
        await shoot('way');
        if (colorScheme === 'light') {
          await button(page, /^Where are we\?/).click();
          const where = page.getByRole('main', { name: 'Where are we?' });
          await where.getByLabel('It can be seen').selectOption('cloud');
          await where.getByLabel('Minutes walked since').fill('25');
          await where.getByLabel('Last sure place', { exact: true }).selectOption({ label: 'Quenna Hause' });
          for (const said of [/, south-west$/, 'steep', 'spur']) await button(where, said).click();
          await where.getByLabel('Height', { exact: true }).fill('640');
          await where.getByLabel('Height', { exact: true }).blur();
          await page.waitForFunction(() => !document.querySelector('.where.old'));
          await shoot('where-are-we');
          await button(where, 'Back').click();
          if (size === 'wide') {
            await button(page, /^Words and marks/).click();
            await shoot('words');
            await button(page, 'Close words and marks').click();
          }
        }
        await step(page, 'Rehearse').click();
        await button(page, 'Walk it').click();
        await button(page, 'Play').waitFor({ timeout: 120_000 });
        const range = page.getByLabel('Time of the rehearsal');
        await range.fill(String(Math.round(Number(await range.getAttribute('max')) * 0.45)));
        await shoot('rehearse');
        await step(page, 'Paper').click();
        await button(page, 'Draw the paper').click();
        await page.getByRole('heading', { name: 'What will be printed' }).waitFor({ timeout: 120_000 });
        await shoot('paper');
      }, { ...options, colorScheme });
    }
  }
} finally {
  await browser.close();
  await program.stop();
}
