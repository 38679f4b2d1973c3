import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { axe_file, with_window } from './browser.mjs';
import { track } from './party_learnt.mjs';
import { button, look_for_ways, open_demo, step } from './steps.mjs';

/** axe-core, every rule that it has for WCAG 2.0 to 2.2 A and AA and its best practices. */
async function no_violation(page, where) {
  const found = await page.evaluate(async () => {
    const { violations } = await window.axe.run(document, { resultTypes: ['violations'] });
    return violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(' ')} ${n.failureSummary?.split('\n')[1] ?? ''}`));
  });
  assert.deepEqual(found, [], `axe-core on ${where}`);
}

export default function accessible(it, world) {
  for (const colorScheme of ['light', 'dark']) {
    it(`axe-core finds nothing on any step, ${colorScheme}`, async () => {
      await with_window(world.browser, world.begin, async (page, context) => {
        // As a script of the browser's, not the page's: the page's policy allows none but its own.
        await context.addInitScript({ content: readFileSync(axe_file, 'utf8') });
        await page.reload();
        await button(page, 'Open with the example round').waitFor();
        await no_violation(page, 'no ground');
        await open_demo(page);
        await page.locator('summary').first().click();
        await no_violation(page, 'Ground');
        await step(page, 'Party').click();
        for (const more of await page.locator('main summary').all()) await more.click();
        await no_violation(page, 'Party');
        const shown = page.getByRole('region', { name: 'What the party has shown' });
        const gpx = (name, text) => ({ name, mimeType: 'application/gpx+xml', buffer: Buffer.from(text) });
        await shown.locator('input[type=file]').setInputFiles([gpx('tarn round.gpx', track(4, 150, 70)), gpx('bike to work.gpx', track(24, 40))]);
        await shown.getByRole('row', { name: /minutes against the time model/ }).waitFor();
        for (const more of await shown.locator('details:not([open]) > summary').all()) await more.click();
        await no_violation(page, 'Party, tracks dropped');
        await step(page, 'Way').click();
        await no_violation(page, 'Way, places');
        await button(page, 'Draw an area').click();
        await no_violation(page, 'Way, drawing an area');
        await button(page, 'Leave it').click();
        await look_for_ways(page);
        for (const more of await page.locator('main summary').all()) await more.click();
        await no_violation(page, 'Way');
        await step(page, 'Rehearse').click();
        await page.getByLabel('Walkers').selectOption('50000');
        await button(page, 'Walk it').click();
        await button(page, 'Stop').waitFor();
        await no_violation(page, 'Rehearse, walking');
        // On a quick machine they have all arrived while axe looked.
        await button(page, 'Stop').click({ timeout: 5_000 }).catch(() => page.getByRole('region', { name: 'Watch them walk' }).waitFor());
        await page.getByLabel('Walkers').selectOption('500');
        await button(page, /^Walk it/).click();
        await page.getByRole('region', { name: 'Watch them walk' }).waitFor({ timeout: 60_000 });
        await no_violation(page, 'Rehearse');
        await step(page, 'Paper').click();
        await button(page, 'Draw the paper').click();
        await page.getByRole('heading', { name: 'What will be printed' }).waitFor({ timeout: 60_000 });
        for (const more of await page.locator('main summary').all()) await more.click();
        await no_violation(page, 'Paper');
        await button(page, /^Trip:/).click();
        await page.getByRole('dialog').waitFor();
        await no_violation(page, 'Trip');
      }, { colorScheme });
    });
  }
}
