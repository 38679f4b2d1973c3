import assert from 'node:assert/strict';
import { start_program, with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, saved, step, ways_found } from './steps.mjs';

/** The program is killed in the middle, and started again on the same trips. */
export default function killed(it, world) {
  it('a killed program loses nothing: not what was stored, not what was typed while it was gone', async () => {
    let program = await start_program({ ground: process.env.LODEWAY_GROUND ?? null });
    try {
      await with_window(world.browser, program.url, async (page) => {
        await open_demo(page);
        await step(page, 'Party').click();
        const size = page.getByLabel(/^How many walk/);
        await size.fill('5');
        await size.blur();
        await saved(page);
        await step(page, 'Way').click();
        await look_for_ways(page);
        const told = await page.locator('.leg .big').textContent();

        await program.kill();
        await page.getByRole('alert').filter({ hasText: 'The program does not answer' }).waitFor();
        // Nobody is there: the leader goes on.
        await step(page, 'Party').click();
        const load = page.getByLabel(/^Load/);
        await load.fill('11');
        await load.blur();
        await page.getByText('1 change waits in this window').waitFor();
        assert.equal(await load.inputValue(), '11');

        program = await start_program({ state: program.state, port: program.port });
        await page.getByText('The program does not answer').waitFor({ state: 'hidden' });
        await saved(page);
        assert.equal(await page.getByLabel(/^Load/).inputValue(), '11');
        assert.equal(await page.getByLabel(/^How many walk/).inputValue(), '5');
        // What was found is still there, as of before the change; and it is found again.
        await step(page, 'Way').click();
        assert.equal(await page.locator('.leg .big').textContent(), told);
        await button(page, 'Look again').click();
        await ways_found(page);
        await page.reload();
        await step(page, 'Party').click();
        assert.equal(await page.getByLabel(/^Load/).inputValue(), '11');
      });
    } finally {
      await program.stop();
    }
  });

  it('a link to a trip that is gone says so', async () => {
    await with_window(world.browser, world.program.url, async (page) => {
      await page.goto(`${new URL(world.program.url).origin}/#/no-such-trip/way`);
      await page.reload();
      await page.getByText('That trip is not here any more').waitFor();
    });
  });

  it('work in hand is asked for again by itself', async () => {
    let program = await start_program({ ground: process.env.LODEWAY_GROUND ?? null });
    try {
      await with_window(world.browser, program.url, async (page) => {
        await open_demo(page);
        await step(page, 'Way').click();
        await look_for_ways(page);
        await button(page, 'Next: watch them walk').click();
        await page.getByLabel('Walkers').selectOption('50000');
        await button(page, 'Walk it').click();
        await button(page, 'Stop').waitFor();
        await program.kill();
        await page.getByText('The program does not answer').waitFor();
        program = await start_program({ state: program.state, port: program.port });
        await page.getByText('The program does not answer').waitFor({ state: 'hidden' });
        await page.getByRole('list', { name: 'What became of them' }).waitFor({ timeout: 120_000 });
      });
    } finally {
      await program.stop();
    }
  });
}
