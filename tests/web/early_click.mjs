import { with_window } from './browser.mjs';
import { open_demo, step } from './steps.mjs';

/** Who clicks before the page has read everything is not sent back. */
export default function early_click(it, world) {
  it('a step that is chosen while the trip is still read stays chosen', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      let answer;
      const held = new Promise((done) => (answer = done));
      await page.route(/\/api\/trips\/\w+$/, async (route) => {
        await held;
        await route.continue();
      });
      await page.reload({ waitUntil: 'commit' });
      await page.waitForRequest(/\/api\/trips\/\w+$/);
      await step(page, 'Party').click();
      answer();
      await page.getByLabel(/^Load/).waitFor();
    });
  });
}
