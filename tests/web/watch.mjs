import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, step } from './steps.mjs';

const watch = (page) => page.getByRole('region', { name: 'Watch them walk' });
const up = (n, of) => (n > 0 && (100 * n) / of < 1 ? 'under 1' : String(Math.ceil((100 * n) / of - 1e-9)));
const down = (n, of) => String(Math.floor((100 * n) / of + 1e-9));
const drawn = (page) => page.evaluate(() => [...document.querySelectorAll('#map canvas')].at(-1).toDataURL());
const redrawn = (page, was) => page.waitForFunction((before) => [...document.querySelectorAll('#map canvas')].at(-1).toDataURL() !== before, was);

/** Watching parties walk: leg by leg, on the ribbon and beside it; who lost a leg, where, and why. */
export default function watching(it, world) {
  const walked = (what, options) => with_window(world.browser, world.begin, async (page) => {
    let told = null;
    page.on('response', async (r) => {
      if (/\/api\/rehearsals\/\w+$/.test(r.url()) && r.ok()) told = (await r.json().catch(() => null)) ?? told;
    });
    await open_demo(page);
    await step(page, 'Way').click();
    await look_for_ways(page);
    await step(page, 'Rehearse').click();
    await button(page, 'Walk it').click();
    await watch(page).waitFor({ timeout: 120_000 });
    for (const until = Date.now() + 10_000; !told && Date.now() < until;) await page.waitForTimeout(50);
    await what(page, told.watch);
  }, options);

  it('a leg is watched: how many go wrong on it first and why, on panel, ribbon and map', () => walked(async (page, told) => {
    assert.equal(await page.locator('main input[type="range"]').count(), 0, 'no film, no slider');
    const of = told.parties;
    const worst = told.legs.reduce((a, b) => (b.lost > a.lost ? b : a));
    const none = told.legs.find((l) => l.lost === 0 && l.leg !== worst.leg) ?? told.legs.reduce((a, b) => (b.lost < a.lost ? b : a));
    assert.ok(worst.lost > 0, 'somebody goes wrong');
    await watch(page).getByRole('button', { name: new RegExp(`^Leg ${none.leg}: `) }).click();
    await page.waitForTimeout(1500);
    const before = await drawn(page);
    await button(page, `Leg ${worst.leg} loses most`).click();
    await redrawn(page, before);
    const now = watch(page).locator('.now');
    const words = (await now.innerText()).replace(/\s+/g, ' ');
    assert.ok(words.includes(`${up(worst.lost, of)} in 100 go wrong here for the first time`), words);
    assert.ok(words.includes(`${down(worst.left, of)} in 100 end it so`), words);
    // The ribbon's key carries the loss, is the chosen one, and the stair stands over the day.
    const key = page.locator(`[data-leg="${worst.leg}"]`);
    assert.equal(await key.getAttribute('aria-pressed'), 'true', 'a leg chosen on either is chosen on both');
    assert.match(await key.getAttribute('aria-label'), new RegExp(`${Math.ceil((100 * worst.lost) / of - 1e-9)} in 100 go wrong here first`));
    const falls = told.legs.filter((l) => l.lost > 0).length;
    assert.equal(await page.locator('#ribbon .fall').count(), falls, 'the stair falls once for each leg that loses');
    assert.ok((await page.locator('#ribbon .left').textContent()).startsWith(`${down(told.legs.at(-1).left, of)} in 100`));
    // Why: each cause with its count; one of them alone is fewer crosses.
    const why = watch(page).getByRole('list', { name: 'Why they go wrong on this leg' }).getByRole('button');
    assert.equal(await why.count(), worst.why.length);
    for (const [i, w] of worst.why.entries()) assert.equal((await why.nth(i).innerText()).replace(/\s+/g, ' ').trim(), `${up(w.parties, of)} ${w.why}`);
    const shown = () => watch(page).getByText(/^On the map: \d+ of them/).innerText().then((s) => Number(/\d+/.exec(s)[0]));
    assert.equal(await shown(), told.lost.filter((l) => l.leg === worst.leg).length);
    const all = await drawn(page);
    await why.first().click();
    assert.equal(await shown(), told.lost.filter((l) => l.leg === worst.leg && l.why === worst.why[0].why).length);
    if (worst.why.length > 1) await redrawn(page, all);
    // From the ribbon to the panel.
    await page.locator('[data-leg="1"]').click();
    await watch(page).locator('.now').getByText('Leg 1', { exact: true }).waitFor();
    await watch(page).getByRole('button', { name: 'The next leg' }).click();
    assert.equal(await page.locator('[data-leg="2"]').getAttribute('aria-pressed'), 'true');
  }));

  it('by keyboard: arrows go from leg to leg, Enter chooses', () => walked(async (page, told) => {
    const rows = watch(page).getByRole('list', { name: 'How many are left after each leg' }).getByRole('button');
    assert.equal(await rows.count(), told.legs.length);
    await rows.first().focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    assert.equal(await rows.nth(2).getAttribute('aria-pressed'), 'true');
    const l = told.legs[2];
    assert.equal(await watch(page).getByRole('button', { name: `Leg 3: ${down(l.left, told.parties)} in 100 left, ${up(l.lost, told.parties)} in 100 lost here`, exact: true }).count(), 1);
  }));

  it('on a phone, by touch', () => walked(async (page) => {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.equal(wide, 0);
    await watch(page).getByRole('button', { name: /loses most$/ }).tap();
    await watch(page).getByText(/^On the map: \d+ of them/).waitFor();
    for (const [name, h] of await watch(page).getByRole('button').evaluateAll((all) => all.map((e) => [e.textContent, e.getBoundingClientRect().height])))
      assert.ok(h >= 24, `${name} is ${h} px high`);
  }, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }));

  it('undo brings back what was walked', () => walked(async (page) => {
    const said = await watch(page).locator('.now').innerText();
    await step(page, 'Way').click();
    await button(page, 'Change places').click();
    await button(page, 'Turn round').click();
    await page.getByText('Out of date: the trip has changed').waitFor();
    await step(page, 'Rehearse').click();
    await page.getByText('Out of date: the trip has changed since.').first().waitFor();
    assert.equal(await watch(page).count(), 0, 'what was walked for another trip is not watched');
    await button(page, 'Undo').click();
    await watch(page).waitFor();
    assert.equal(await watch(page).locator('.now').innerText(), said);
    assert.equal(await page.getByText('Out of date').count(), 0);
  }));
}
