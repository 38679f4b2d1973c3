import assert from 'node:assert/strict';
import { open_window } from './browser.mjs';
import { button, open_demo, saved, step } from './steps.mjs';

export default function two_windows(it, world) {
  it('two windows on one trip do not lose each other’s edits', async () => {
    const a = await open_window(world.browser, world.begin);
    await open_demo(a.page);
    await step(a.page, 'Party').click();
    // another browser has no cookie: it comes with the key
    const b = await open_window(world.browser, world.program.url + new URL(a.page.url()).hash);
    const size = (w) => w.page.getByLabel(/^How many walk/);
    const load = (w) => w.page.getByLabel(/^Load/);
    await size(b).waitFor();

    // Different things at the same time: both stay.
    await Promise.all([size(a).fill('6'), load(b).fill('12')]);
    await Promise.all([size(a).blur(), load(b).blur()]);
    await Promise.all([saved(a.page), saved(b.page)]);
    for (const w of [a, b]) {
      await w.page.waitForFunction(() => {
        const of = (words) => [...document.querySelectorAll('label')].find((l) => words.test(l.textContent))?.control?.value;
        return of(/^How many walk/) === '6' && of(/^Load/) === '12';
      });
    }

    // The same thing, while one of them is cut off: the leader is asked, nothing is dropped.
    await b.context.route('**/changes', (route) => route.abort());
    await size(b).fill('9');
    await size(b).blur();
    await b.page.waitForFunction(() => sessionStorage.length > 0);
    await size(a).fill('7');
    await size(a).blur();
    await saved(a.page);
    await b.context.unroute('**/changes');
    await load(b).fill('13');
    await load(b).blur();
    const asked = b.page.getByRole('status').filter({ hasText: 'Two windows changed the same' });
    await asked.waitFor();
    assert.equal(await size(b).inputValue(), '7');
    await button(b.page, 'Use mine').click();
    await asked.waitFor({ state: 'hidden' });
    await saved(b.page);
    await a.page.waitForFunction(() => [...document.querySelectorAll('label')].find((l) => /^How many walk/.test(l.textContent))?.control?.value === '9');
    assert.equal(await load(a).inputValue(), '13');
    await a.settle();
    await b.settle();
  });
}
