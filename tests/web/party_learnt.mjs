import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, saved, step } from './steps.mjs';

/** A walk of two hours over nearly level ground at some 4 km/h with a rest, and a ride: made here, so that what is in them is known.
 * Nobody walks evenly, and a track that does is refused as made up: steps and times vary, always in the same way. */
export function track(kmh, minutes, rest_at = null, lon = -9.2, day = '2026-09-12') {
  const begin = Date.parse(`${day}T09:00:00Z`), points = [];
  let lat = 54.6, clock = begin, seed = 7;
  const vary = () => ((seed = (seed * 16807) % 2147483647) / 2147483647);
  for (let s = 0; s < minutes * 60; s += 15) {
    if (rest_at !== null && s === rest_at * 60) for (let r = 0; r < 40; r++) points.push([lat, clock += 15_000]);
    const seconds = 9 + Math.floor(12 * vary());
    lat += ((kmh / 3.6) * seconds * (0.7 + 0.6 * vary())) / 111_200;
    points.push([lat, clock += seconds * 1000]);
  }
  return `<?xml version="1.0"?><gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${
    points.map(([at, t], i) => `<trkpt lat="${at.toFixed(6)}" lon="${lon}"><ele>${(120 + 2 * Math.sin(i / 9)).toFixed(1)}</ele><time>${new Date(t).toISOString()}</time></trkpt>`).join('')}</trkseg></trk></gpx>`;
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

  it('what it does to the open trip, speed over slope, and where the tracks lie', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await step(page, 'Way').click();
      await look_for_ways(page);
      await step(page, 'Party').click();
      const shown = page.getByRole('region', { name: 'What the party has shown' });
      const answers = (end) => page.waitForResponse((r) => r.url().endsWith(end) && r.request().method() === 'POST');
      const map = () => page.locator('#map .target').screenshot();
      const bare = await map();
      // 54.6 north, 9.27 west lies on the ground; the walk leaves it in the north.
      const [learn, change] = await Promise.all([answers('/api/party/learn'), answers('/change'),
        shown.locator('input[type=file]').setInputFiles([file('tarn round.gpx', track(4.6, 150, 70, -9.27, '2026-11-14')), file('bike to work.gpx', track(24, 40, null, -9.3))])]);
      const told = await learn.json(), does = await change.json();

      // Only the learnt centre moves the walking: minutes go as it does. The walk is of the trip's day: evidence fades towards it.
      const share = told.pace.centre / told.pace_before.centre;
      assert.ok(share < 0.99, `a quick party: ${share}`);
      assert.ok(Math.abs(does.now.minutes / does.before.minutes - share) < 0.005, `${does.before.minutes} to ${does.now.minutes}, by ${share}`);
      for (const leg of does.legs) assert.equal(leg.changed, leg.before.verdict !== leg.now.verdict);
      const box = shown.getByRole('status', { name: 'What it does to this trip' });
      await box.getByText(`It ends at ${does.end_now.clock} (before ${does.end_before.clock})`).waitFor();
      const changed = does.legs.filter((l) => l.changed);
      assert.equal(does.sentences.length, 2 + Math.max(1, changed.length));
      for (const leg of changed) assert.match(await box.innerText(), new RegExp(`leg ${leg.leg}, `));
      const ribbon = await page.evaluate(() => document.body.innerText);
      assert.ok(ribbon.includes(does.end_before.clock), 'the end of before is the one that the page shows');

      // By hand: Naismith on the flat is the party's 4 km/h, by the table 1.15 times as long: 3.48 km/h.
      const flat = (line) => line.find(([deg]) => deg === 0)[1];
      assert.equal(flat(told.speed.table), 3.48);
      assert.ok(Math.abs(flat(told.speed.learnt) - 4 / told.pace.centre) < 0.006);
      const km = told.tracks.find((t) => t.used !== 'refused').learned_km;
      assert.ok(Math.abs(told.speed.pieces.length - km / 0.5) <= 2, `${told.speed.pieces.length} pieces of ${km} km`);
      for (const [deg, kmh] of told.speed.pieces) assert.ok(Math.abs(deg) < 2 && kmh > 3.5 && kmh < 6, `${deg} ${kmh}`);
      const graph = shown.getByRole('img', { name: new RegExp(`^Speed over slope, ${told.speed.pieces.length} measured pieces.*on the flat 3.5 and `) });
      await graph.waitFor();
      assert.equal(await graph.locator('.piece').count(), told.speed.pieces.length);

      // The walk was used, the ride was not; both stand on the map, and go when they are left out.
      const lines = (name) => told.tracks.find((t) => t.file === name).lines;
      assert.deepEqual([...new Set(lines('tarn round.gpx').map((l) => l.was))], ['used']);
      assert.deepEqual([...new Set(lines('bike to work.gpx').map((l) => l.was))].filter((was) => was === 'used'), []);
      const [east, north] = lines('tarn round.gpx')[0].line_grid_m[0];
      // Transverse Mercator on 9 W (Snyder 1987, 8-9 and 8-10): 482 557 east, 6 050 315 north, and one step of 40 m at most.
      assert.ok(Math.abs(east - 482557) < 2 && north >= 6050314 && north < 6050355, `${east} ${north}`);
      await shown.getByText('On the map:').waitFor();
      const drawn = await map();
      assert.notDeepEqual(drawn, bare, 'the tracks are on the map');
      for (const name of ['tarn round.gpx', 'bike to work.gpx']) await button(shown, `Leave out: ${name}`).click();
      await shown.getByText('On the map:').waitFor({ state: 'detached' });
      await graph.waitFor({ state: 'detached' });
      await box.waitFor({ state: 'detached' });
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
