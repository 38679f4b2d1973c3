import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, step } from './steps.mjs';

const line = (page) => button(page, /^If the day changes/);
const table = (page) => page.getByRole('main', { name: 'If the day changes' });

/** When the day goes otherwise than planned: the table of conditions, and the escape routes of each leg. */
export default function if_it_changes(it, world) {
  /** `told`: what the program last said of ways and conditions. */
  const planned = (what, options) => with_window(world.browser, world.begin, async (page) => {
    const told = { ways: null, rows: [], way: '' };
    page.on('response', async (r) => {
      if (!r.ok()) return;
      const body = /\/api\/ways\/\w+(\/\w+\/conditions\?row=\d)?$/.test(r.url()) ? await r.json().catch(() => null) : null;
      if (body?.rows) {
        told.rows[Number(r.url().at(-1))] = body.rows[0];
        told.way = r.url().split('/').at(-2);
      }
      else if (body) told.ways = body;
    });
    await open_demo(page);
    await step(page, 'Way').click();
    await look_for_ways(page);
    await what(page, told);
  }, options);

  it('the line under the ways names what does not hold; the table says dangers first, and what to fall back on', () => planned(async (page, told) => {
    await line(page).filter({ hasText: /your limits/ }).waitFor();
    const rows = told.rows;
    const bad = rows.filter((r) => r.verdict === 'outside' || r.verdict === 'not_judged');
    assert.ok(bad.length > 0, 'the example does not hold in everything');
    const way = told.ways.ways.find((w) => w.name === told.way);
    const words = await line(page).innerText();
    for (const r of bad) assert.ok(words.includes(r.title), `${words} has ${r.title}`);
    assert.ok(words.includes(`${bad.length} of ${rows.length}`), words);
    await line(page).click();
    const shown = await table(page).getByRole('article').all();
    assert.equal(shown.length, rows.length);
    for (const [i, row] of rows.entries()) {
      const said = (await shown[i].innerText()).replace(/\s+/g, ' ');
      for (const part of [row.title, row.end, row.end_slow ?? '– slow day', ...row.sentences]) assert.ok(said.includes(part), `${said} has ${part}`);
      const [danger, kept] = await shown[i].locator('dd').all();
      const strays = row.hazard_probability;
      assert.equal(await danger.innerText(), strays > 0 && strays < 0.005 ? 'under 1' : String(Math.ceil(100 * strays - 1e-9)), 'never rounded down');
      assert.equal(await kept.innerText(), String(Math.floor(100 * row.certainty + 1e-9)), 'never rounded up');
      const size = (e) => e.evaluate((x) => parseFloat(getComputedStyle(x).fontSize));
      assert.ok((await size(danger)) >= (await size(kept)), 'a danger is written no smaller than a certainty');
      assert.equal(said.includes('Then: '), row.fallback !== 'none_needed');
      // A way down that few keep is not offered without its own figures.
      const escape = row.fallback === 'turn_back' ? way.legs[row.leg - 1].escapes.find((e) => e.from === 'start') : null;
      if (escape && escape.certainty < 0.9) assert.ok(said.includes(`${Math.floor(100 * escape.certainty + 1e-9)} in 100 keep it`), said);
      if (row.fallback !== 'none_needed') assert.ok(said.includes(row.then));
    }
    assert.doesNotMatch(await table(page).innerText(), /\bsafe\b/i);
    const turns = rows.find((r) => r.leg);
    await table(page).getByRole('button', { name: `Show leg ${turns.leg}`, exact: true }).first().click();
    assert.equal(await page.locator(`[data-leg="${turns.leg}"]`).getAttribute('aria-pressed'), 'true');
  }));

  it('rows stand there as they come; they can be stopped, and gone on with', () => with_window(world.browser, world.begin, async (page) => {
    let held = null;
    const asked = [];
    await page.route(/\/conditions\?row=\d$/, async (route) => {
      const row = Number(route.request().url().at(-1));
      asked.push(row);
      if (row === 2 && asked.filter((r) => r === 2).length === 1) await new Promise((go) => (held = go));
      await route.continue().catch(() => {});
    });
    await open_demo(page);
    await step(page, 'Way').click();
    await look_for_ways(page);
    await line(page).click();
    await table(page).getByText('2 of 6 worked out').waitFor();
    assert.equal(await table(page).getByRole('article').count(), 2);
    assert.equal(await table(page).getByRole('progressbar').getAttribute('value'), '2');
    await button(table(page), 'Stop').click();
    held();
    await table(page).getByText('Stopped after 2 of 6.').waitFor();
    await page.waitForTimeout(700);
    assert.equal(Math.max(...asked), 2, 'nothing is asked after it was stopped');
    await button(table(page), 'Go on').click();
    await page.waitForFunction(() => document.querySelectorAll('main article').length === 6);
    assert.equal(await table(page).getByRole('progressbar').count(), 0);
    assert.ok(asked.filter((r) => r === 0).length === 1, 'what was there is not asked again');
  }));

  for (const [name, options] of Object.entries({
    'wide': {},
    'on a phone': { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
  })) {
    it(`a leg's escape routes are legs, with letters, from where the party is, ${name}`, () => planned(async (page, told) => {
      const chosen = (await page.locator('tr.on label').textContent()).trim();
      const legs = told.ways.ways.find((w) => w.title.toLowerCase() === chosen).legs;
      const leg = legs.find((l) => l.escapes.some((e) => e.legs.length > 1));
      assert.ok(leg, 'the example has an escape route of several legs');
      await page.locator(`[data-leg="${leg.leg}"]`).click();
      const routes = page.getByRole('region', { name: 'Escape route', exact: true });
      const words = { start: 'from its start', middle: 'from half way', end: 'from its end' };
      for (const route of leg.escapes) {
        await routes.getByRole('button', { name: new RegExp(`^${words[route.from]}`) }).click();
        const said = (await routes.innerText()).replace(/\s+/g, ' ');
        if (!route.legs.length) {
          assert.ok(said.includes(`${route.to} is here`) || said.includes('back the way you came'), said);
          continue;
        }
        const steps = await routes.locator('ol > li').allInnerTexts();
        assert.equal(steps.length, route.legs.length);
        route.legs.forEach((l, i) => {
          const of = steps[i].replace(/\s+/g, ' ');
          assert.ok(of.startsWith(String.fromCharCode(97 + i)), of);
          for (const part of [l.words.bearing, l.to, `${Math.round(l.map_mm)} mm`, `${Math.round(l.minutes)} min`]) assert.ok(of.includes(part), `${of} has ${part}`);
        });
        assert.ok(said.includes(route.to), said);
        const figure = await routes.locator('dd').first().innerText();
        assert.equal(figure, route.hazard_probability > 0 && route.hazard_probability < 0.005 ? 'under 1' : String(Math.ceil(100 * route.hazard_probability - 1e-9)));
        if (route.after_last_light) assert.ok(said.includes('after last light'), said);
      }
      // Drawn where the legs are drawn: without the check the map is another picture.
      const several = leg.escapes.find((e) => e.legs.length > 1);
      await routes.getByRole('button', { name: new RegExp(`^${words[several.from]}`) }).click();
      const plan = page.locator('#map canvas').last();
      const drawn = () => plan.evaluate((c) => c.toDataURL());
      await page.waitForFunction(() => !document.querySelector('#map .moment'));
      const check = page.getByRole('checkbox', { name: 'escape routes' });
      const before = await drawn();
      await check.uncheck();
      await page.waitForFunction((was) => [...document.querySelectorAll('#map canvas')].at(-1).toDataURL() !== was, before);
      await check.check();
    }, options));
  }
}
