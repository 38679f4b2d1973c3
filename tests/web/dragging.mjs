import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, saved, step, ways_found } from './steps.mjs';

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

/** Beside the pointer while an end is dragged: figures, ground to keep off, the last place that was allowed. */
export default function dragging(it, world) {
  it('figures stand beside the pointer, ground to keep off is said there, and one drag changes one thing', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      let told = null;
      page.on('response', async (r) => {
        if (/\/api\/ways\/\w+$/.test(r.url()) && r.ok()) told = (await r.json().catch(() => null)) ?? told;
      });
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      for (const until = Date.now() + 10_000; !told && Date.now() < until;) await page.waitForTimeout(50);
      const chosen = (await page.locator('tr.on label').textContent()).trim();
      const legs = told.ways.find((w) => w.title.toLowerCase() === chosen).legs;
      const leg = legs.find((l, i) => l.kind === 'bearing' && l.length_m > 200 && legs[i + 1]);
      assert.ok(leg, 'the example has a leg on a bearing');
      await page.locator(`[data-leg="${leg.leg}"]`).click();
      await page.waitForTimeout(800);
      const id = await page.evaluate(() => location.hash.split('/')[1]);
      const trip = () => page.evaluate(async (t) => (await fetch(`/api/trips/${t}`)).json(), id);
      const place = await to_window(page);
      const end = leg.line.at(-1);
      /** What the program says of the leg if it ended there: 200, or 422 where ground to keep off lies between. */
      const asked = (to) => page.evaluate(async ([t, points]) => (await fetch(`/api/trips/${t}/quick`, { method: 'POST',
        headers: { 'X-Lodeway': '1', 'Content-Type': 'application/json' }, body: JSON.stringify({ points_grid_m: points }) })).status, [id, [leg.line[0], to]]);
      const ring = (m) => Array.from({ length: 16 }, (_, k) => [end[0] + m * Math.sin((k * Math.PI) / 8), end[1] + m * Math.cos((k * Math.PI) / 8)]);
      const first = async (all, status) => {
        for (const to of all) if ((await asked(to)) === status) return to;
        return null;
      };
      const good = await first([...ring(60), ...ring(120)], 200);
      const barred = await first([...ring(250), ...ring(400), ...ring(550)], 422);
      assert.ok(good && barred, 'near the end there is ground for a leg and ground to keep off');
      const slip = page.getByRole('region', { name: 'While dragging' });
      const reds = () => page.evaluate(() => {
        let n = 0;
        for (const c of document.querySelectorAll('#map canvas')) {
          if (!c.width || !c.height) continue;
          const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
          for (let i = 0; i < d.length; i += 4) if (d[i + 3] > 200 && d[i] > 120 && d[i + 1] < 60 && d[i + 2] < 70) n++;
        }
        return n;
      });
      const before = await trip();
      await page.mouse.move(...place(end));
      await page.mouse.down();
      await page.mouse.move(...place(good), { steps: 4 });
      for (const row of ['onto ground to keep off', 'keep these legs', 'minutes']) {
        const of = slip.getByRole('row', { name: new RegExp(row) });
        await of.waitFor();
        assert.match((await of.innerText()).replace(/\s+/g, ' '), /(\d+|not judged) → (\d+|not judged)/, `${row}, old and new`);
      }
      assert.match(await slip.innerText(), /moved \d+ m/);
      const clean = await reds();
      await page.mouse.move(...place(barred), { steps: 4 });
      await slip.getByText('The dashed ring is the last place that was allowed.').waitFor();
      assert.equal(await slip.getByRole('row').count(), 0, 'no figures of a leg that cannot be');
      await page.waitForTimeout(300);
      assert.ok((await reds()) > clean + 50, 'the ground to keep off is red on the map');
      await page.mouse.up();
      await page.getByRole('alert').filter({ hasText: 'Not moved.' }).waitFor();
      assert.deepEqual((await trip()).state, before.state, 'a drag that is refused changes nothing');
      await button(page, 'All right').click();

      await page.mouse.move(...place(end));
      await page.mouse.down();
      await page.mouse.move(...place(good), { steps: 4 });
      await slip.getByRole('row').first().waitFor();
      await page.mouse.up();
      await page.waitForFunction((n) => document.querySelectorAll('.slip').length === 0 && n !== null, 0);
      await ways_found(page);
      await saved(page);
      const after = await trip();
      const { point: was, ...rest } = before.state.document, { point: now, ...others } = after.state.document;
      assert.deepEqual(others, rest, 'nothing but the places changed');
      assert.notDeepEqual(now, was);
      const at = now.findIndex((p) => { const [e, n] = p.at.split(' ').map(Number); return Math.hypot(e - good[0], n - good[1]) < 15; });
      assert.ok(at >= 0, 'the end is where it was let go');
      for (const p of was) assert.ok(p.at === was.find((q) => q.name === p.name)?.at && (now.some((q) => q.at === p.at) || now[at].name === p.name), `${p.name} stayed where it was`);
      // "Saved" may still stand from before: the answer is waited for.
      await Promise.all([page.waitForResponse((r) => r.url().endsWith('/undo')), button(page, 'Undo').click()]);
      await saved(page);
      assert.deepEqual((await trip()).state.document, before.state.document, 'one step back takes it back');
    });
  });
}
