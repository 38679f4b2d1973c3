import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, step } from './steps.mjs';

/** How long the bar of the scale is: it follows the map. */
const bar = (page) => page.evaluate(() => {
  const scale = document.querySelector('#map .scale');
  return `${scale.textContent.trim()} ${scale.querySelector('i').style.width}`;
});

/** What moves by itself, for who wants it and for who does not. All other tests are of a page that is asked not to. */
export default function motion(it, world) {
  for (const [reducedMotion, moves] of [['no-preference', true], ['reduce', false]]) {
    it(`the map ${moves ? 'glides to its next step' : 'is at its next step at once'}: ${reducedMotion}`, async () => {
      await with_window(world.browser, world.begin, async (page) => {
        await open_demo(page);
        await page.waitForTimeout(1000);
        // The page's clock is held, so that what is seen does not hang on how busy the machine is.
        await page.clock.install();
        await page.clock.pauseAt(new Date(Date.now() + 5000));
        const before = await bar(page);
        await page.evaluate(() => [...document.querySelectorAll('#map .scale-row button')].find((b) => b.textContent.trim() === '+').click());
        await page.clock.runFor(64);
        const soon = await bar(page);
        await page.clock.runFor(1000);
        const after = await bar(page);
        assert.notEqual(after, before, 'the key works');
        if (moves) assert.notEqual(soon, after, 'it is still on its way');
        else assert.equal(soon, after);
      }, { reducedMotion });
    });
  }

  it('the whole job with motion, and nothing else moves by itself', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      await step(page, 'Rehearse').click();
      await page.getByLabel('Walkers').selectOption('500');
      await button(page, /^Walk it/).click();
      await page.getByRole('region', { name: 'Watch them walk' }).waitFor({ timeout: 60_000 });
      await step(page, 'Paper').click();
      await page.waitForTimeout(300);
      const moving = await page.evaluate(() => document.getAnimations().map((a) => `${a.constructor.name} ${a.effect?.target?.className ?? ''}`));
      assert.deepEqual(moving, []);
      const smooth = await page.evaluate(() => [...document.querySelectorAll('*')].filter((e) => {
        const s = getComputedStyle(e);
        return s.scrollBehavior === 'smooth' || (s.animationName !== 'none' && parseFloat(s.animationDuration) > 0);
      }).length);
      assert.equal(smooth, 0);
    }, { reducedMotion: 'no-preference' });
  });
}
