import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, saved, step } from './steps.mjs';

const map = (page) => page.locator('#map .target');
const slip = (page) => page.getByRole('region', { name: 'On the map here' });
const names = (page) => page.locator('[aria-label^="Name of"]').evaluateAll((all) => all.map((e) => e.value));

/** Where a named place stands in the window: found by name, then read from what the map is told to show. */
async function go_to(page, name) {
  await page.keyboard.press('/');
  await page.keyboard.type(name);
  await page.getByRole('option').first().waitFor();
}

/** What the hand does on the map: put, measure, find, walk the day; each by mouse, by keyboard, by touch. */
export default function by_hand(it, world) {
  it('a click puts a place, snapped and named; it can be renamed and taken back', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page, false);
      await step(page, 'Way').click();
      // Find gives a known place to aim at; the click lies ten pixels beside it.
      const [found] = await Promise.all([
        page.waitForResponse((r) => r.url().includes('/find') && r.url().includes('Harrik')),
        go_to(page, 'Harrik Pike'),
      ]);
      const pike = (await found.json()).names[0];
      await page.keyboard.press('Enter');
      await slip(page).getByText('Start is here').waitFor({ timeout: 10_000 }).catch(() => undefined);
      assert.deepEqual(await names(page), ['Harrik Pike']);
      await button(page, 'Not here').click();
      await saved(page);
      // Taking back is asked of the program: on a busy machine its answer takes a while.
      await page.waitForFunction(() => !document.querySelector('.points li'), null, { timeout: 10_000 });
      assert.deepEqual(await names(page), [], 'taken back');
      const target = await page.evaluate(() => document.querySelector('#map .target').getBoundingClientRect().toJSON());
      const [what] = await Promise.all([
        page.waitForResponse((r) => r.url().includes('/what') && !r.url().includes('within_m=0.0')),
        page.mouse.click(target.x + 400, target.y + 300),
      ]);
      const told = await what.json();
      await page.getByLabel('Name of Start').waitFor();
      assert.equal((await names(page))[0], told.stands_on?.name ?? told.called);
      await button(page, 'Rename').click();
      await page.getByLabel('Name of this place').fill('Our camp');
      await button(page, 'Name it').click();
      assert.deepEqual(await names(page), ['Our camp']);
      assert.ok(pike.height_m > 800 && pike.kind === 'summit');
    });
  });

  it('names are found with slips and without accents; figures say how they were read', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page, false);
      await step(page, 'Way').click();
      const first = async (text) => {
        await page.getByLabel('Find a place by name or figures').fill(text);
        const option = page.getByRole('option').first();
        await page.waitForFunction((t) => document.querySelector('#find').value === t, text);
        await page.waitForTimeout(700);
        return (await option.count()) ? option.innerText() : '';
      };
      await page.keyboard.press('/');
      assert.match(await first('Harrik'), /^Harrik Pike/);
      assert.match(await first('Harirk Pike'), /^Harrik Pike/, 'two letters turned round');
      assert.match(await first('hárrik pïke'), /^Harrik Pike/, 'accents that are not there');
      assert.match(await first('835 503'), /83503|835 503, a square of 100 m/);
      await page.getByText(/^Read as: east 83.5, north 50.3/).waitFor();
      assert.match(await first('481949 6050540'), /819 505/);
      assert.equal(await first('xqzwvvbk'), '');
      await page.getByText(/Nothing of that name/).first().waitFor();
      await page.keyboard.press('Escape');
    });
  });

  it('the string: figures between two clicks, and by keyboard', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await page.keyboard.press('s');
      await map(page).click({ position: { x: 300, y: 300 } });
      await page.getByText(/^From .*: click the other end/).waitFor();
      await map(page).click({ position: { x: 520, y: 360 } });
      const string = page.getByRole('region', { name: 'Measuring string' });
      await string.getByText('Make it a leg').waitFor();
      const words = await string.innerText();
      assert.match(words, /\d{3}°/);
      assert.match(words, /\d+ m/);
      assert.match(words, /\d+ mm/);
      assert.match(words, /double paces/);
      const [to, back] = [Number(/(\d{3})°/.exec(words)[1]), Number(/back\s+(\d{3})°/.exec(words)[1])];
      assert.equal((to + 180) % 360, back, 'back is the other way');
      await button(page, 'Let go').click();
      await string.waitFor({ state: 'hidden' });
      await map(page).focus();
      await page.keyboard.press('s');
      await map(page).focus();
      await page.keyboard.press('Enter');
      await page.getByText(/^From .*: click the other end/).waitFor();
      // The whole ground fills the window and does not move: nearer, there is room to move it.
      for (let i = 0; i < 2; i++) await page.keyboard.press('+');
      await page.waitForTimeout(1500);
      for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
      await page.waitForTimeout(1500);
      await page.keyboard.press('Enter');
      await string.getByText('Make it a leg').waitFor();
      await page.keyboard.press('Escape');
      await string.waitFor({ state: 'hidden' });
    });
  });

  it('ribbon and map are one: pointer and keys walk a dot along the way', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      const key = await page.locator('[data-leg="5"]').boundingBox();
      await page.mouse.move(key.x + key.width / 2, key.y - 30);
      const moment = page.locator('#map .moment');
      await moment.waitFor();
      assert.match(await moment.innerText(), /^\d\d:\d\d leg 5, \d+ m/);
      assert.match(await moment.innerText(), /19 of 20 within \d+ m along, \d+ m across/);
      await page.mouse.click(key.x + key.width / 2, key.y - 30);
      assert.equal(await page.locator('[data-leg="5"]').getAttribute('aria-pressed'), 'true', 'clicking goes there');
      await page.mouse.move(400, 300);
      await moment.waitFor({ state: 'hidden' });
      await page.locator('[data-leg="5"]').focus();
      await page.keyboard.press('.');
      await page.keyboard.press('.');
      await moment.waitFor();
      await page.locator('#ribbon [role="status"]').filter({ hasText: /leg \d/ }).waitFor({ state: 'attached' });
    });
  });

  it('by touch a tap tells, and its keys put the place', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page, false);
      await button(page, 'Next: the party').tap();
      await button(page, 'Next: the way').tap();
      const box = await map(page).boundingBox();
      await page.touchscreen.tap(box.x + 150, box.y + box.height * 0.35);
      await button(page, 'Start here').tap();
      // Who goes on has said which place comes next: the tap puts it.
      await button(page, 'Go on: the end').tap();
      await page.getByText('Tap the end on the map.').waitFor();
      await page.touchscreen.tap(box.x + 240, box.y + box.height * 0.3);
      await page.getByLabel('Name of End').waitFor();
      await saved(page);
      assert.equal((await names(page)).length, 2);
      for (const b of await page.locator('#map button:visible').evaluateAll((all) => all.map((e) => [e.textContent, e.getBoundingClientRect().height])))
        assert.ok(b[1] >= 24, `${b[0]} is ${b[1]} px high`);
    }, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 });
  });

  it('undo brings back the ways as well', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      const before = await page.locator('[data-leg]').count();
      await button(page, 'Change places').click();
      await button(page, 'Turn round').click();
      await page.getByText('Out of date: the trip has changed').waitFor();
      await saved(page);
      await button(page, 'Undo').click();
      await page.getByText('Out of date: the trip has changed').waitFor({ state: 'hidden' });
      assert.equal(await page.locator('[data-leg]').count(), before);
    });
  });
}
