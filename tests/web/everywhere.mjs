import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, step, tab_to } from './steps.mjs';

const wide = (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
async function small_targets(page, least) {
  return page.locator('button:visible, a.button:visible, select:visible').evaluateAll((all, px) => all.flatMap((e) => {
    const r = e.getBoundingClientRect();
    return r.width < px || r.height < px ? [`${e.getAttribute('aria-label') ?? e.textContent.trim()} ${r.width.toFixed(0)} x ${r.height.toFixed(0)}`] : [];
  }), least);
}

/** Narrow windows, large type, forced colours, paper, and what a screen reader is told. */
export default function everywhere(it, world) {
  for (const [name, options] of Object.entries({
    '320 px': { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true },
    '200 %': { viewport: { width: 720, height: 450 } },
    '400 %': { viewport: { width: 360, height: 225 } },
  })) {
    it(`nothing is cut off at ${name}`, async () => {
      await with_window(world.browser, world.begin, async (page) => {
        await open_demo(page);
        for (const s of ['Party', 'Way', 'Ground']) {
          await step(page, s).click();
          assert.equal(await wide(page), 0, `${s} is wider than the window`);
        }
        await step(page, 'Way').click();
        await look_for_ways(page);
        assert.equal(await wide(page), 0, 'the way is wider than the window');
        assert.ok(await page.getByRole('region', { name: 'Chosen leg' }).isVisible());
        assert.deepEqual(await small_targets(page, 24), [], 'targets of 24 px at least (WCAG 2.2, 2.5.8)');
      }, options);
    });
  }

  it('the map has 60 in 100 of the window while planning, and the ground covers it', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      const box = await page.locator('#map').boundingBox();
      assert.ok((box.width * box.height) / (1440 * 900) >= 0.6, `${box.width} x ${box.height}`);
      // No edge of the ground is in the pane: panning ends there.
      await page.locator('#map .target').focus();
      for (let i = 0; i < 12; i++) await page.keyboard.press('ArrowUp');
      await page.waitForTimeout(600);
      const { summary } = await page.evaluate(async () => (await (await fetch('/api/grounds')).json()).grounds[0]);
      await page.mouse.move(box.x + box.width / 2, box.y + 70);
      await page.waitForTimeout(300);
      const [, north] = (await page.locator('#map .under').innerText()).trim().split(/\s+/).map(Number);
      assert.ok(north <= summary.extent_grid_m[3], `${north} is beyond the ground`);
    });
  });

  it('no more than 15 tabs to the main act, and a skip link', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await button(page, 'Look for ways').waitFor();
      // Tab goes on from what was clicked last, focused or not: a page that is read anew begins at its top.
      await page.reload();
      await button(page, 'Look for ways').waitFor();
      await tab_to(page, /^To what this step asks for/, 2);
      await page.keyboard.press('Enter');
      await tab_to(page, /^Look for ways/, 14);
    });
  });

  it('the accessibility tree names what is on the page', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      for (const [role, name] of [
        ['application', /^Map with the way .*: \d+ legs from .+ to .+/], ['slider', /^Start, by the clock/], ['combobox', 'Find a place by name or figures'],
        ['navigation', 'Steps'], ['region', 'Time ribbon'], ['region', 'Chosen leg'], ['button', /^Leg 1, .+ to .+, \d\d:\d\d to \d\d:\d\d/],
        ['radio', /quick/i], ['checkbox', 'keep off'], ['main', 'Way'],
      ]) assert.equal(await page.getByRole(role, { name }).first().count(), 1, `${role} ${name}`);
      // Every control has a name.
      const nameless = await page.locator('button, input, select, a[href], [role="slider"]').evaluateAll((all) => all.flatMap((e) => {
        const words = e.getAttribute('aria-label') || e.labels?.[0]?.textContent?.trim() || e.textContent?.trim() || e.getAttribute('title');
        return words ? [] : [e.outerHTML.slice(0, 90)];
      }));
      assert.deepEqual(nameless, []);
    });
  });

  it('forced colours and print keep the figures', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      await page.emulateMedia({ forcedColors: 'active' });
      assert.ok(await page.locator('.leg .big').isVisible());
      await page.emulateMedia({ forcedColors: 'none', media: 'print' });
      assert.ok(await page.locator('.leg .big').isVisible(), 'the leg is printed');
      assert.equal(await page.getByRole('toolbar', { name: 'Zoom' }).isVisible(), false, 'tools are not');
    });
  });
}
