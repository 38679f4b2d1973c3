import assert from 'node:assert/strict';
import { with_window } from './browser.mjs';
import { button, download, look_for_ways, open_demo, saved, step } from './steps.mjs';

/** What other programs and the contact at home are given: read as they would read it, and held against what the page shows. */
export default function for_others(it, world) {
  it('KML has the legs and places where they lie, the calendar the three times of the home note', async () => {
    await with_window(world.browser, world.begin, async (page) => {
      let told = null;
      page.on('response', async (r) => {
        if (/\/api\/ways\/\w+$/.test(r.url()) && r.ok()) told = (await r.json().catch(() => null)) ?? told;
      });
      await open_demo(page);
      await step(page, 'Way').click();
      // Not the clock of Greenwich, so that a zone that is forgotten shows.
      await page.getByLabel('Clock of').fill('Europe/Oslo');
      await page.getByLabel('Clock of').press('Enter');
      await saved(page);
      await look_for_ways(page);
      for (const until = Date.now() + 10_000; !told && Date.now() < until;) await page.waitForTimeout(50);
      const way = told.ways.find((w) => w.name === told.picked);
      await step(page, 'Paper').click();
      await button(page, 'Draw the paper').click();
      const other = page.getByRole('region', { name: 'For other programs' });
      await other.waitFor({ timeout: 60_000 });

      const kml = await download(page, () => other.locator('a[href$=".kml"]').click());
      const { wrong, lines, points } = await page.evaluate((text) => {
        const xml = new DOMParser().parseFromString(text, 'application/xml');
        const marks = [...xml.getElementsByTagName('Placemark')].map((m) => ({
          name: m.getElementsByTagName('name')[0].textContent, kind: m.getElementsByTagName('LineString').length ? 'line' : 'point',
          at: m.getElementsByTagName('coordinates')[0].textContent.trim().split(/\s+/).map((c) => c.split(',').map(Number)) }));
        return { wrong: xml.getElementsByTagName('parsererror').length, lines: marks.filter((m) => m.kind === 'line'), points: marks.filter((m) => m.kind === 'point') };
      }, kml.bytes.toString());
      assert.equal(wrong, 0, 'it is XML');
      assert.equal(lines.length, way.legs.length, 'a line a leg');
      assert.ok(points.length >= 2, 'and its places');
      const [ground] = await page.evaluate(async () => (await (await fetch('/api/grounds')).json()).grounds);
      for (const [i, leg] of way.legs.entries()) {
        assert.ok(lines[i].name.startsWith(`${leg.leg} `) && lines[i].name.includes(leg.to), lines[i].name);
        for (const [[lon, lat], grid] of [[lines[i].at[0], leg.line[0]], [lines[i].at.at(-1), leg.line.at(-1)]]) {
          const there = await page.evaluate(async ([id, at]) => (await fetch(`/api/grounds/${id}/place?at=${encodeURIComponent(at)}`)).json(), [ground.id, `${lat} ${lon}`]);
          const off = Math.hypot(there.at_grid_m[0] - grid[0], there.at_grid_m[1] - grid[1]);
          assert.ok(off < 2, `leg ${leg.leg} lies ${off.toFixed(1)} m off`);
        }
      }

      const ics = (await download(page, () => other.locator('a[href$=".ics"]').click())).bytes.toString();
      // RFC 5545, 3.1: lines of at most 75 octets, ended by CRLF; longer ones go on after a blank.
      for (const line of ics.split('\r\n')) assert.ok(Buffer.byteLength(line) <= 75 && !line.includes('\n'), line);
      const events = ics.replace(/\r\n /g, '').split('BEGIN:VEVENT').slice(1);
      const s = way.schedule;
      assert.ok(s.end_slow && s.act_by, 'the example has all three times');
      const clock = (minute) => `${String(Math.floor(minute / 60) % 24).padStart(2, '0')}:${String(Math.round(minute) % 60).padStart(2, '0')}`;
      const at = events.map((e) => /DTSTART:(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z/.exec(e).slice(1).map(Number))
        .map(([y, m, d, h, min, sec]) => new Intl.DateTimeFormat('en-GB', { timeZone: s.zone, hour: '2-digit', minute: '2-digit' }).format(Date.UTC(y, m - 1, d, h, min, sec)));
      assert.equal(s.zone, 'Europe/Oslo');
      assert.deepEqual(at, [s.end_clock_min, s.end_slow_clock_min, s.act_by_clock_min].map(clock));
      for (const e of events) assert.match(e, /SUMMARY:.+[\s\S]*BEGIN:VALARM/);
    });
  });
}
