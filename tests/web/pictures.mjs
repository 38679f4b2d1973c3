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

// The ground's making is not what is shown: one that was made before will do.
const program = await start_program({ ground: process.env.LODEWAY_GROUND ?? null });
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
        const shoot = async (name, part = null) => {
          if (part) await part.evaluate((e) => e.scrollIntoView());
          else await page.evaluate(() => scrollTo(0, 0));
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
        if (size === 'wide' && colorScheme === 'light') {
          // A place looked for.
          await page.getByLabel('Find a place by name or figures').fill('Mornel');
          await page.getByRole('option').first().waitFor();
          await shoot('find');
          await button(page, 'empty it').click();
          await page.keyboard.press('Escape');
        }
        await look_for_ways(page);
        const aimed = page.locator('[data-leg].bar').last();
        await ((await aimed.count()) ? aimed : page.locator('[data-leg]').last()).click();
        await shoot('way');
        await page.locator('[data-leg="5"]').click();
        const routes = page.getByRole('region', { name: 'Escape route', exact: true });
        await routes.waitFor();
        await shoot('escape', routes);
        await button(page, /^If the day changes/).click();
        await page.getByRole('article').first().waitFor();
        await shoot('if-it-changes');
        await button(page, 'Back to the way').click();
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
        const watch = page.getByRole('region', { name: 'Watch them walk' });
        await watch.waitFor({ timeout: 120_000 });
        await button(watch, /loses most$/).click();
        await shoot('rehearse', size === 'wide' ? watch : null);
        await step(page, 'Paper').click();
        await button(page, 'Draw the paper').click();
        await page.getByRole('heading', { name: 'What will be printed' }).waitFor({ timeout: 120_000 });
        await shoot('paper');
      }, { ...options, colorScheme });
    }
  }
  // Narrow, and in German: the way and what becomes of it.
  for (const [name, options, german] of [['320', { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true, deviceScaleFactor: 1 }, false], ['german', sizes.wide, true]]) {
    await with_window(browser, `${program.url}#/-/ground`, async (page) => {
      const say = async (english) => (german ? (await page.evaluate(async () => (await fetch('/api/words?language=de')).json())).words[english] : english);
      if (german) {
        await page.evaluate(() => localStorage.setItem('lodeway:language', 'de'));
        await page.reload();
      }
      await button(page, await say('Open with the example round')).click();
      await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor();
      await page.getByRole('link', { name: new RegExp(`^${await say('Way')}`) }).locator('visible=true').first().click();
      await button(page, await say('Look for ways')).click();
      await page.getByRole('region', { name: await say('Chosen leg') }).waitFor({ timeout: 90_000 });
      await page.locator('[data-leg="5"]').click();
      const shoot = async (what) => {
        await page.mouse.move(2, 2);
        await page.evaluate(() => scrollTo(0, 0));
        await page.waitForTimeout(3000);
        await page.screenshot({ path: join(out, `page-${what}-${name}.jpg`), type: 'jpeg', quality: 62 });
      };
      await shoot('way');
      const line = button(page, new RegExp(`^${await say('If the day changes')}`));
      await line.click();
      await page.getByRole('article').first().waitFor();
      if (name === '320') await page.getByRole('main').evaluate((e) => e.scrollIntoView());
      await page.waitForTimeout(1000);
      await page.screenshot({ path: join(out, `page-if-it-changes-${name}.jpg`), type: 'jpeg', quality: 62 });
    }, options);
  }
} finally {
  await browser.close();
  await program.stop();
}
