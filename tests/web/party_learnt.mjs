import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, open_demo, saved, step } from './steps.mjs';

/** A walk of two hours over nearly level ground at some 4 km/h with a rest, and a ride: made here, so that what is in them is known.
 * Nobody walks evenly, and a track that does is refused as made up: steps and times vary, always in the same way. */
function track(kmh, minutes, rest_at = null) {
  const begin = Date.parse('2026-09-12T09:00:00Z'), points = [];
  let lat = 54.6, clock = begin, seed = 7;
  const vary = () => ((seed = (seed * 16807) % 2147483647) / 2147483647);
  for (let s = 0; s < minutes * 60; s += 15) {
    if (rest_at !== null && s === rest_at * 60) for (let r = 0; r < 40; r++) points.push([lat, clock += 15_000]);
    const seconds = 9 + Math.floor(12 * vary());
    lat += ((kmh / 3.6) * seconds * (0.7 + 0.6 * vary())) / 111_200;
    points.push([lat, clock += seconds * 1000]);
  }
  return `<?xml version="1.0"?><gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${
    points.map(([at, t], i) => `<trkpt lat="${at.toFixed(6)}" lon="-9.2"><ele>${(120 + 2 * Math.sin(i / 9)).toFixed(1)}</ele><time>${new Date(t).toISOString()}</time></trkpt>`).join('')}</trkseg></trk></gpx>`;
}
const file = (name, text) => ({ name, mimeType: 'application/gpx+xml', buffer: Buffer.from(text) });

const marks = `version = 1
date = 2026-10-03
[[marks]]
exercise = "forks"
trials = 20
missed = 4
[[marks]]
exercise = "lines"
trials = 20
missed = 3
`;

/** What the party has shown: dropped, told, refused, taken into the trip, undone. */
export default function party_learnt(it, world) {
  it('tracks are learnt from or refused with the reason; taking them over can be undone', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Party').click();
      const shown = page.getByRole('region', { name: 'What the party has shown' });
      await shown.getByText('The tables stand for now.').waitFor();
      const [answer] = await Promise.all([
        page.waitForResponse((r) => r.url().endsWith('/api/party/learn')),
        shown.locator('input[type=file]').setInputFiles([file('tarn round.gpx', track(4, 150, 70)), file('bike to work.gpx', track(24, 40))]),
      ]);
      const told = await answer.json();
      const row = (name) => shown.locator('li', { hasText: name });
      await row('bike to work.gpx').getByText('refused').waitFor();
      const ride = told.tracks.find((t) => t.file === 'bike to work.gpx');
      assert.equal(ride.used, 'refused');
      assert.ok((await row('bike to work.gpx').innerText()).includes(ride.reason), 'with its reason');
      assert.notEqual(told.tracks.find((t) => t.file === 'tarn round.gpx').used, 'refused');
      assert.ok(told.pace.learnt);
      await shown.getByRole('row', { name: /minutes against the time model/ }).waitFor();
      // A file that the leader leaves out counts no more.
      await button(shown, 'Leave out: tarn round.gpx').click();
      await page.waitForFunction(() => [...document.querySelectorAll('button')].find((b) => b.textContent === 'Use it in this trip')?.disabled);
      await button(shown, 'Use it: tarn round.gpx').click();
      await page.waitForFunction(() => [...document.querySelectorAll('button')].find((b) => b.textContent === 'Use it in this trip')?.disabled === false);
      await button(shown, 'Use it in this trip').click();
      await shown.getByText('This trip goes by what the party has shown').waitFor();
      await saved(page);
      const id = await page.evaluate(() => decodeURIComponent(location.hash.split('/')[1]));
      const trip = await page.evaluate(async (i) => (await fetch(`/api/trips/${i}`)).json(), id);
      assert.match(trip.state.party_file, /\[\[walked\]\]/);
      assert.deepEqual(trip.faults, []);
      await button(page, 'Undo').click();
      await shown.getByText('The tables stand for now.').waitFor();
    });
  });

  it('marks and tracks together; each figure may be refused, is kept so, and counts again', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Party').click();
      const shown = page.getByRole('region', { name: 'What the party has shown' });
      await shown.locator('input[type=file]').setInputFiles([
        file('tarn round.gpx', track(4, 150, 70)), file('twin-house-marks.toml', marks)]);
      const row = (name) => shown.getByRole('row', { name });
      const use = (name) => shown.getByRole('checkbox', { name: `use: ${name}` });
      await row(/^right branch at a fork/).waitFor();
      // By hand: (0.98 · 10 + 10 - 2) / (10 + 10), training counts half of 20 trials and 4 misses.
      assert.match(await row(/^right branch at a fork/).innerText(), /\b89\b/);
      assert.equal(await use('right branch at a fork').isChecked(), true);
      // The narrowest page holds the table too.
      const size = page.viewportSize();
      await page.setViewportSize({ width: 320, height: 700 });
      await page.waitForFunction(() => document.documentElement.scrollWidth <= innerWidth);
      await page.setViewportSize(size);
      const asked = async (act) => {
        const [answer] = await Promise.all([page.waitForResponse((r) => r.url().endsWith('/api/party/learn')), act()]);
        return answer.json();
      };
      const one = await asked(() => use('right branch at a fork').uncheck());
      assert.deepEqual(one.figures.filter((f) => f.refused).map((f) => f.name), ['branch']);
      const two = await asked(() => use('one leg against the next').uncheck());
      assert.deepEqual(two.pace.refused, ['leg']);
      assert.deepEqual(two.figures.filter((f) => f.refused).map((f) => f.name), ['branch']);
      await button(shown, 'Use it in this trip').click();
      await shown.getByText('This trip goes by what the party has shown').waitFor();
      await saved(page);
      const held = async () => page.evaluate(async () => {
        const id = decodeURIComponent(location.hash.split('/')[1]);
        return (await (await fetch(`/api/trips/${id}`)).json()).state.party_file;
      });
      assert.match(await held(), /refused = \["branch", "leg"\]/);
      assert.match(await held(), /exercise = "forks"/);
      // Later, with nothing dropped: what the trip goes by is shown, and the figure is taken up again.
      await use('right branch at a fork').waitFor();
      assert.equal(await use('right branch at a fork').isChecked(), false);
      assert.equal(await use('one leg against the next').isChecked(), false);
      assert.equal(await button(shown, 'Use it in this trip').count(), 0, 'nothing to take over yet');
      await asked(() => use('right branch at a fork').check());
      await button(shown, 'Use it in this trip').click();
      await saved(page);
      await page.waitForFunction(async () => {
        const id = decodeURIComponent(location.hash.split('/')[1]);
        return /refused = \["leg"\]/.test((await (await fetch(`/api/trips/${id}`)).json()).state.party_file ?? '');
      });
      await button(page, 'Undo').click();
      await saved(page);
      await page.waitForFunction(() => {
        const box = document.querySelector('input[aria-label="use: right branch at a fork"]');
        return box && !box.checked;
      });
      assert.match(await held(), /refused = \["branch", "leg"\]/);
      await button(page, 'Undo').click();
      await shown.getByText('The tables stand for now.').waitFor();
      await use('right branch at a fork').waitFor({ state: 'detached' });
    });
  });

  it('what is no track is said to be none', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Party').click();
      const shown = page.getByRole('region', { name: 'What the party has shown' });
      await shown.locator('input[type=file]').setInputFiles([{ name: 'picture.png', mimeType: 'image/png', buffer: Buffer.from('x') }]);
      await shown.getByRole('alert').getByText(/picture.png: a track/).waitFor();
      await shown.locator('input[type=file]').setInputFiles([file('broken.gpx', '<gpx>')]);
      await shown.locator('li', { hasText: 'broken.gpx' }).getByText('refused').waitFor();
    });
  });
}
