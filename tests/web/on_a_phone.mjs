import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, download, is_pdf, look_for_ways, open_demo } from './steps.mjs';

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };

/** Nothing is wider than the window, so that nobody scrolls sideways to read. */
async function fits(page) {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0, 'the page is wider than the phone');
}

export default function on_a_phone(it, world) {
  it('the whole job on a phone, by touch', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await fits(page);
      await open_demo(page);
      await fits(page);
      await button(page, 'Next: the party').tap();
      await fits(page);
      await button(page, 'Next: the way').tap();
      await fits(page);
      await look_for_ways(page);
      await fits(page);
      // What a finger presses is at least 24 px wide (WCAG 2.2, 2.5.8).
      for (const box of await page.locator('[data-leg]').evaluateAll((all) => all.map((e) => e.getBoundingClientRect().width)))
        assert.ok(box >= 24, `a key is ${box} px wide`);
      await button(page, 'Next leg').tap();
      assert.equal(await page.locator('[data-leg="2"]').getAttribute('aria-pressed'), 'true');
      await button(page, 'Next: watch them walk').tap();
      await button(page, 'Walk it').tap();
      await page.getByRole('list', { name: 'What became of them' }).waitFor({ timeout: 60_000 });
      await fits(page);
      await button(page, 'Next: the paper').tap();
      await button(page, 'Draw the paper').tap();
      await page.getByRole('heading', { name: 'To print at 100 %' }).waitFor({ timeout: 60_000 });
      await fits(page);
      const print = page.getByRole('region', { name: 'To print at 100 %' }).getByRole('link');
      for (let i = 0; i < 3; i++) is_pdf(await download(page, () => print.and(page.locator('a[href$=".pdf"]')).nth(i).tap()));
    }, phone);
  });
}
