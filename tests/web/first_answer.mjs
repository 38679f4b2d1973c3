import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, look_for_ways, open_demo, saved, step, ways_found } from './steps.mjs';

const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const map = (page) => page.locator('#map .target');
const verdict = (page) => page.getByLabel('What it comes to');
const in_sight = async (what) => what.evaluate((e) => {
  const r = e.getBoundingClientRect(), inside = e.closest('main')?.getBoundingClientRect() ?? { top: 0, bottom: innerHeight };
  return r.top >= Math.max(0, inside.top) - 1 && r.bottom <= Math.min(innerHeight, inside.bottom) + 1;
});
/** Two clicks on the fells whose first answer is red: the end lies on steep ground beside no line. */
async function two_places(page) {
  await open_demo(page, false);
  await step(page, 'Way').click();
  await map(page).click({ position: { x: 380, y: 420 } });
  await page.getByLabel('Name of Start').waitFor();
  await map(page).click({ position: { x: 560, y: 250 } });
  await page.getByLabel('Name of End').waitFor();
  await saved(page);
}

/** Where somebody who had never seen the page stopped: the first answer, what it says, and what to do then. */
export default function first_answer(it, world) {
  it('a red answer says what to try next, and the verdict is seen after looking again', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      // Every word that is drawn on a canvas.
      await page.evaluate(() => {
        const drawn = CanvasRenderingContext2D.prototype.fillText;
        window.words = [];
        CanvasRenderingContext2D.prototype.fillText = function (text, ...rest) {
          window.words.push(text);
          return drawn.call(this, text, ...rest);
        };
      });
      await two_places(page);
      // The slip's filled key goes on.
      await button(page, 'Go on: look for ways').click();
      await ways_found(page);
      assert.match(await verdict(page).innerText(), /^outside your limits/);
      const next = page.getByRole('list', { name: 'What to try next' });
      assert.ok(await in_sight(next), 'what to try next is in sight');
      for (const key of ['Change places', 'Next: watch them walk']) assert.ok(await in_sight(button(page, key)), `${key} is in sight`);
      // Start and end keep their letters beside the legs.
      await page.evaluate(() => (window.words = []));
      await page.locator('[data-leg="2"]').click();
      await page.waitForFunction(() => window.words.includes('2'));
      const words = await page.evaluate(() => window.words);
      assert.ok(words.includes('S') && words.includes('E'), `S and E among ${words}`);

      await next.getByRole('button', { name: /^Move the end/ }).click();
      await page.getByText('Click the end on the map.').waitFor();
      await map(page).click({ position: { x: 690, y: 380 } });
      await saved(page);
      await button(page, 'Change places').click();
      await button(page, 'Look again').click();
      await page.waitForFunction(() => !document.body.innerText.includes('Out of date'));
      await ways_found(page);
      assert.ok(await in_sight(verdict(page).getByRole('heading')), 'the verdict is seen');
      assert.equal(await page.getByRole('heading', { name: 'Places, in order' }).count(), 0, 'not the list of places');
    });
  });

  it('a place that no ground leads to is moved by the key beside the refusal', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await two_places(page);
      await button(page, 'More of End').click();
      await page.getByLabel('Place of End').fill('483945 6052512');  // in the midst of ground that is too steep
      await page.getByLabel('Place of End').press('Enter');
      await saved(page);
      await button(page, 'Look for ways').click();
      await page.getByRole('alert').filter({ hasText: 'No ways were found' }).getByRole('button', { name: 'Move this place' }).click();
      await page.getByText('Click the end on the map.').waitFor();
      assert.equal(await page.getByText('No ways were found').count(), 0);
    });
  });

  it('one figure for one thing: verdict, row of the way and rehearsal', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      let ways = null;
      page.on('response', async (r) => {
        if (/\/api\/ways\/\w+$/.test(r.url()) && r.ok()) ways = (await r.json().catch(() => null)) ?? ways;
      });
      await two_places(page);
      await look_for_ways(page);
      for (const until = Date.now() + 10_000; !ways && Date.now() < until;) await page.waitForTimeout(50);
      const [way] = ways.ways;
      const kept = String(Math.floor(100 * way.certainty + 1e-9)), harm = String(Math.ceil(100 * way.hazard_probability - 1e-9));
      assert.equal(kept, String(Math.floor(100 * Math.min(way.certainty_worked_out, way.certainty_walked ?? 1) + 1e-9)), 'the lower is told');
      const head = (await verdict(page).innerText()).replace(/\s+/g, ' ');
      assert.ok(head.includes(`${harm}in 100 set foot`) || head.includes(`${harm} in 100 set foot`), head);
      assert.ok(head.includes(`${kept} in 100 get every leg right`), head);
      const row = (await page.getByRole('row').filter({ has: page.getByRole('radio', { checked: true }) }).innerText()).split(/\s+/);
      assert.ok(row.includes(kept) && row.includes(harm), row.join(' '));
      // Nothing else is counted in sight; what falls short is offered only where something does.
      const folded = page.getByRole('button', { name: /falls short|no others|were counted/ });
      const short = ways.ways.some((w) => w.remarks.length > 0);
      assert.equal(/What falls short/.test(await folded.innerText()), short);
      assert.equal(await page.getByText(/simulated parties did/).count(), 0);
      await folded.click();
      await page.getByText(/the lower of what was worked out, \d+, and what simulated parties did, \d+/).waitFor();

      await step(page, 'Rehearse').click();
      await button(page, 'Walk it').click();
      await page.getByRole('region', { name: 'Watch them walk' }).waitFor({ timeout: 120_000 });
      const shares = page.locator('main dl.shares dd');
      assert.deepEqual(await shares.allInnerTexts(), [harm, kept]);
      await page.getByText(/^Counted of these 2.000, each put back on the way after a mistake: \d+ in 100/).waitFor();
      const tab = (await step(page, 'Rehearse').innerText()).replace(/\s+/g, ' ');
      assert.match(tab, /^Rehearse 2.000 walked$/, 'the tab has no figure of its own');
      // Its words on the ribbon stand clear of the others.
      const boxes = await page.locator('#ribbon svg text:is(.left, .turn-words, .label)').evaluateAll((all) => all.map((e) => [e.textContent, e.getBoundingClientRect().toJSON()]));
      for (const [a, p] of boxes) for (const [b, q] of boxes)
        if (a < b) assert.ok(p.right <= q.left || q.right <= p.left || p.bottom <= q.top + 4 || q.bottom <= p.top + 4, `"${a}" runs into "${b}"`);
    });
  });

  it('the line of six steps and the tabs say the same', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      const line = page.getByRole('region', { name: 'A first trip in six steps' });
      const says = (words) => line.getByText(words).first().waitFor();
      await says(/^Now: Ground\./);
      await open_demo(page, false);
      await says(/^Next: Party\./);
      assert.equal(await page.locator('nav[aria-label="Steps"] li.done', { hasText: 'Party' }).count(), 0, 'no tab is done that the line asks for');
      await step(page, 'Party').click();
      await says(/^Now: Party\./);
      await step(page, 'Way').click();
      await map(page).click({ position: { x: 380, y: 420 } });
      await page.getByLabel('Name of Start').waitFor();
      await says(/^Now: Way\. Click the start/);
      await map(page).click({ position: { x: 560, y: 250 } });
      await says(/^Now: Way\. Look for ways/);
      await button(line, 'All six').click();
      assert.equal(await line.getByRole('listitem').filter({ hasText: 'done' }).count(), 3);
    });
  });

  it('the clock\'s zone and the limits are set where the day is', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await two_places(page);
      await page.getByLabel('Clock of').fill('Europe/Dublin');
      await page.getByLabel('Clock of').press('Enter');
      await saved(page);
      const trip = await page.evaluate(async () => (await fetch(`/api/trips/${location.hash.split('/')[1]}`)).json());
      assert.equal(trip.state.document.zone, 'Europe/Dublin');
      await page.getByLabel('Clock of').fill('Nowhere/Town');
      await page.getByLabel('Clock of').press('Enter');
      await page.locator('#start-told .wrong').filter({ hasText: 'expected a time zone by its city, like Europe/Oslo' }).waitFor();
      await page.getByText('At most 5 in 100 onto ground to keep off; each leg kept by 90 in 100; 60 min of light left after a slow day.').waitFor();
      await button(page, 'Change the limits').click();
      await page.getByRole('dialog').getByLabel('Least certainty of a leg').fill('0.8');
      await page.getByRole('dialog').getByLabel('Least certainty of a leg').blur();
      await button(page.getByRole('dialog'), 'Close').first().click();
      await page.getByText('each leg kept by 80 in 100').waitFor();
    });
  });

  it('on a phone what leads on is in sight, before and after', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page);
      await page.getByRole('link', { name: /^Way/ }).locator('visible=true').first().tap();
      assert.ok(await in_sight(button(page, 'Look for ways')), 'Look for ways');
      await button(page, 'Look for ways').tap();
      await ways_found(page);
      for (const key of ['Change places', 'Next: watch them walk']) assert.ok(await in_sight(button(page, key)), key);
    }, phone);
  });

  it('the window itself does not scroll on a wide screen', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      const longer = () => page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
      assert.equal(await longer(), 0);
      await open_demo(page);
      for (const s of ['Party', 'Way', 'Rehearse', 'Paper', 'Ground']) {
        await step(page, s).click();
        assert.equal(await longer(), 0, s);
      }
    });
  });

  it('a route that is brought in comes into the window, wherever the map was', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      await open_demo(page, false);
      await step(page, 'Way').click();
      for (let i = 0; i < 4; i++) await page.getByRole('button', { name: 'Closer' }).click();
      await page.waitForTimeout(1000);
      await page.evaluate(() => {
        const drawn = CanvasRenderingContext2D.prototype.fillText;
        window.placed = {};
        CanvasRenderingContext2D.prototype.fillText = function (text, x, y, ...rest) {
          window.placed[text] = [x, y, this.canvas.clientWidth, this.canvas.clientHeight];
          return drawn.call(this, text, x, y, ...rest);
        };
      });
      const at = await page.evaluate(async () => {
        const { grounds } = await (await fetch('/api/grounds')).json(), [west, south] = grounds[0].summary.extent_grid_m;
        return Promise.all([[800, 900], [1600, 1500]].map(async ([e, n]) => (await (await fetch(`/api/grounds/${grounds[0].id}/place?east_m=${west + e}&north_m=${south + n}`)).json()).latitude_longitude.match(/-?[\d.]+/g).map(Number)));
      });
      const points = at.map(([lat, lon]) => `<rtept lat="${lat}" lon="${lon}"/>`).join('');
      await button(page, /^Trip:/).click();
      await page.getByRole('dialog').locator('input[type=file]').setInputFiles([{ name: 'corner.gpx', mimeType: 'application/gpx+xml',
        buffer: Buffer.from(`<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><rte>${points}</rte></gpx>`) }]);
      await button(page, 'The way to walk: 2 places').click();
      await page.getByLabel('Name of End').waitFor();
      await page.waitForFunction(() => ['S', 'E'].every((l) => {
        const [x, y, w, h] = window.placed[l] ?? [-1, -1, 0, 0];
        return x > 0 && x < w && y > 0 && y < h;
      }), null, { timeout: 10_000 });
    });
  });
}
