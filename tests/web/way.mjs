import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, saved, step, ways_found } from './steps.mjs';

const card = (page) => page.getByRole('region', { name: 'Chosen leg' });

/** How the map lies: two places of the window, read from the map's own readout, give all others. */
async function to_window(page) {
  const box = await page.locator('#map .target').boundingBox();
  let told = '';
  const read = async (x, y) => {
    await page.mouse.move(box.x + x, box.y + y);
    await page.waitForFunction((before) => ![before, undefined].includes(document.querySelector('#map .under')?.textContent), told);
    told = await page.locator('#map .under').textContent();
    return told.trim().split(/\s+/).slice(0, 2).map(Number);
  };
  const [w, h] = [box.width - 120, box.height - 120];
  await read(w / 2, h / 2);
  const [e0, n0] = await read(60, 120), [e1, n1] = await read(w, h);
  return ([e, n]) => [box.x + 60 + ((e - e0) / (e1 - e0)) * (w - 60), box.y + 120 + ((n - n0) / (n1 - n0)) * (h - 120)];
}
/** Milliseconds from the act to the card's next change, by the page's own clock; null: none in a second. */
async function until_changed(page, act) {
  const changed = page.evaluate(() => new Promise((done) => {
    const watch = new MutationObserver(() => {
      watch.disconnect();
      done(performance.now() - from);
    });
    let from = performance.now();
    addEventListener('pointermove', () => (from = performance.now()), { once: true, capture: true });
    watch.observe(document.querySelector('.leg .big'), { subtree: true, characterData: true, childList: true });
    setTimeout(() => done(null), 1000);
  }));
  await act();
  return changed;
}

export default function way(it, world) {
  /** `told.ways`: what the server last told this window of the ways, to know where a leg ends. */
  /** The page may show what the program told before this test has read it. */
  const told_again = async (page, told, times) => {
    for (const until = Date.now() + 60_000; told.times === times && Date.now() < until;) await page.waitForTimeout(50);
    assert.ok(told.times > times, 'the ways are found anew');
  };
  const planned = (what) => with_window(world.browser, world.begin, async (page) => {
    const told = { ways: null, times: 0 };
    page.on('response', async (r) => {
      if (!/\/api\/ways\/\w+$/.test(r.url()) || !r.ok()) return;
      // A window that is closed meanwhile has no answer to read any more.
      const ways = await r.json().catch(() => null);
      if (ways) Object.assign(told, { ways, times: told.times + 1 });
    });
    await open_demo(page);
    await step(page, 'Way').click();
    await look_for_ways(page);
    await told_again(page, told, 0);
    await what(page, told);
  });

  it("a leg's end is dragged: figures follow, and letting go keeps it", () => planned(async (page, told) => {
    const { ways, times } = told;
    const chosen = (await page.locator('tr.on label').textContent()).trim();
    const legs = ways.ways.find((w) => w.title.toLowerCase() === chosen).legs;
    const leg = legs.find((l) => l.kind === 'bearing' && l.length_m > 200) ?? legs.find((l) => l.kind === 'bearing');
    assert.ok(leg, 'the example has a leg on a bearing');
    await page.locator(`[data-leg="${leg.leg}"]`).click();
    const place = await to_window(page);
    const [x, y] = place(leg.line.at(-1));
    const before = await card(page).locator('.big').textContent();
    await page.mouse.move(x, y);
    await page.mouse.down();
    const waits = [];
    for (let i = 1; i <= 8; i++) waits.push(await until_changed(page, () => page.mouse.move(x - 3 * i, y + 6 * i)));
    world.note(`a dragged leg's end: figures after ${waits.map((ms) => ms?.toFixed(0) ?? 'none').join(', ')} ms`);
    // The card follows while the end is held.
    await page.waitForFunction((was) => ![was, undefined].includes(document.querySelector('.leg .big')?.textContent), before);
    await page.mouse.up();
    await told_again(page, told, times);
    const after = told.ways;
    await ways_found(page);
    await saved(page);
    // The dragged end is where it was let go: a metre is the grid's last figure, a pixel is several.
    const let_go = after.ways[0].legs.map((l) => place(l.line.at(-1)));
    assert.ok(let_go.some(([px, py]) => Math.hypot(px - x + 24, py - y - 48) < 3), 'a leg ends where the hand let go');
    // Taken back, the ways that were found for the trip as it was are there again.
    await button(page, 'Undo').click();
    await page.locator(`[data-leg="${legs.length}"]`).waitFor();
    await page.locator(`[data-leg="${leg.leg}"]`).click();
    await page.waitForFunction((was) => document.querySelector('.leg .big')?.textContent === was, before);
    assert.equal(await page.getByText('Out of date: the trip has changed').count(), 0);
  }));

  it('an area is drawn, named, undone and done again', () => planned(async (page) => {
    await button(page, 'Change places').click();
    await button(page, 'Draw an area').click();
    for (const [x, y] of [[300, 200], [360, 200], [360, 260], [300, 260]]) await page.locator('#map .target').click({ position: { x, y } });
    await page.getByText('4 corners so far').waitFor();
    await button(page, 'Take back a corner').click();
    await page.getByText('3 corners so far').waitFor();
    await page.getByLabel('Its name').fill('bog');
    await button(page, 'Close the area').click();
    const area = page.getByText('bog, 3 corners');
    await area.waitFor();
    await saved(page);
    await page.keyboard.press('Control+z');
    await area.waitFor({ state: 'hidden' });
    await page.keyboard.press('Control+Shift+z');
    await area.waitFor();
    await button(page, 'Look for ways again').click();
    await ways_found(page);
  }));

  it('other units and mils, on the card, the map and in the fields', () => planned(async (page) => {
    await button(page, /^Trip:/).click();
    const dialog = page.getByRole('dialog');
    await dialog.locator('#trip-paper-units').selectOption('imperial');
    await dialog.locator('#trip-paper-angle').selectOption('mils');
    await button(dialog, 'Close').first().click();
    await saved(page);
    await button(page, 'Look again').click();
    await ways_found(page);
    assert.match(await page.locator('#map .scale').textContent(), /(ft|mi)$/);
    const count = await page.locator('[data-leg]').count();
    let bearings = 0;
    for (let leg = 1; leg <= count; leg++) {
      await page.locator(`[data-leg="${leg}"]`).click();
      const words = (await card(page).locator('> p:not(.warning), > .big, > .dangers').allTextContents()).join(' ');
      assert.match(words, /\d (ft|mi)/);
      assert.doesNotMatch(words, /\d (m|km) /);
      if (/\d{4} mil/.test(words)) bearings++;
    }
    assert.ok(bearings > 0, 'a bearing in mils');
    const why = page.locator('details', { hasText: 'Why this leg?' });
    await why.locator('summary').click();
    await why.getByText(/Leg \d+, /).waitFor({ timeout: 60_000 });
    assert.doesNotMatch(await why.textContent(), /\d (m|km)\b/, 'and in what is said of a leg');
    await step(page, 'Party').click();
    assert.match(await page.locator('.field', { hasText: /^Load/ }).textContent(), /lb/);
  }));

  it('a search goes on until its ways are read, and says which legs fall short', () => planned(async (page) => {
    await button(page, /^Trip:/).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Least certainty of a leg').fill('0.99');
    await dialog.getByLabel('Least certainty of a leg').blur();
    await button(dialog, 'Close').first().click();
    await saved(page);
    // The answer with the new ways is held back: the program is done, the page has not read it.
    let come, go;
    const asked_for = new Promise((done) => (come = done)), let_go = new Promise((done) => (go = done));
    await page.route(/\/api\/ways\/\w+$/, async (route) => {
      come();
      await let_go;
      await route.continue();
    });
    const changed = page.getByText('Out of date: the trip has changed');
    await changed.waitFor();
    await button(page, 'Look again').click();
    await asked_for;
    assert.equal(await changed.count(), 0, 'the search counts as running');
    await button(page, 'Stop').waitFor();
    go();
    await ways_found(page);
    await button(page, /^What falls short/).click();
    const short_of = page.getByText(/fewer than your limit of 99 in 100 keep these: leg \d/).first();
    await short_of.waitFor();
    assert.match(await short_of.textContent(), /^(Quick|Middle|Sure): /);
  }));

  it('what is wrong is told beside it, in words', () => planned(async (page) => {
    await button(page, 'Change places').click();
    await button(page, 'More of Start').click();
    const place = page.getByLabel('Place of Start');
    const good = await place.inputValue();
    await place.fill('somewhere nice');
    await place.blur();
    const wrong = page.locator('#point-0-told.wrong');
    await wrong.waitFor();
    assert.equal(await wrong.getAttribute('role'), 'alert');
    assert.ok((await wrong.textContent()).length > 20);
    assert.equal(await place.inputValue(), 'somewhere nice', 'what was typed stays');
    assert.equal(await place.getAttribute('aria-invalid'), 'true');
    await place.fill(good);
    await place.blur();
    await page.locator('#point-0-told.told').waitFor();
    await step(page, 'Party').click();
    const size = page.getByLabel(/^How many walk/);
    await size.fill('0');
    await size.blur();
    await page.locator('#f-party-size-wrong').waitFor();
    assert.equal(await size.inputValue(), '0');
    await size.fill('4');
    await size.blur();
    await page.locator('#f-party-size-wrong').waitFor({ state: 'hidden' });
    await step(page, 'Way').click();
    await button(page, 'Change places').click();
    const start = page.getByLabel('Start', { exact: true });
    await start.fill('9 in the morning');
    await start.blur();
    await page.getByText('A clock time is expected').waitFor();
  }));
}
