import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { with_window } from './browser.mjs';
import { button, look_for_ways } from './steps.mjs';

const cells = 120, cell_m = 25, west = 480000, south = 6050000;

/** A slope of 3 km by 3 km with one path, as a leader gets them: a GeoTIFF and a GeoJSON. */
function make_files(folder) {
  const rows = Array.from({ length: cells }, (_, r) =>
    Array.from({ length: cells }, (_, c) => (200 + (cells - r) * 2 + 15 * Math.sin(c / 9)).toFixed(1)).join(' '));
  writeFileSync(join(folder, 'hill.asc'),
    `ncols ${cells}\nnrows ${cells}\nxllcorner ${west}\nyllcorner ${south}\ncellsize ${cell_m}\nNODATA_value -9999\n${rows.join('\n')}\n`);
  execFileSync('gdal_translate', ['-q', '-a_srs', 'EPSG:32629', join(folder, 'hill.asc'), join(folder, 'hill.tif')]);
  const path = [[500, 500], [900, 1400], [2300, 2400]].map(([e, n]) => [west + e, south + n]);
  writeFileSync(join(folder, 'paths.geojson'), JSON.stringify({
    type: 'FeatureCollection', crs: { type: 'name', properties: { name: 'EPSG:32629' } },
    features: [{ type: 'Feature', properties: { highway: 'path', name: 'Long path' }, geometry: { type: 'LineString', coordinates: path } }],
  }));
  return [join(folder, 'hill.tif'), join(folder, 'paths.geojson')];
}

/** A leader's own files, from this machine to ways on them. */
export default function own_ground(it, world) {
  it('builds a ground of files that are chosen, and plans on it', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lodeway-files-'));
    try {
      const [heights, paths] = make_files(folder);
      await with_window(world.browser, world.begin, async (page) => {
        const choose = page.locator('input[aria-label="Files for a ground"]');
        await choose.setInputFiles([heights, paths]);
        await page.getByRole('button', { name: 'Take out paths.geojson' }).waitFor();
        await page.getByLabel('Name of the ground').fill('Own hill');
        await page.getByLabel('Licence for files that do not state one').fill('made by the test');
        await button(page, 'Build the ground').click();
        await page.getByRole('heading', { name: 'Own hill', exact: true }).waitFor({ timeout: 60_000 });
        assert.match(await page.locator('dl').first().innerText(), /3 × 3 km[\s\S]*32629/);

        await button(page, 'Next: the party').click();
        await button(page, 'Next: the way').click();
        const type = page.locator('form').getByRole('textbox');
        await type.fill(`${west + 500} ${south + 500}`);
        await type.press('Enter');
        await page.getByLabel('Name of Start').waitFor();
        await type.fill(`${west + 2300} ${south + 2400}`);
        await type.press('Enter');
        await page.getByLabel('Name of End').waitFor();
        await look_for_ways(page);
        assert.match(await page.getByRole('region', { name: 'Chosen leg' }).innerText(), /Long path/);
      });

      // The building is left for another page, and come back to: its bar stands there, and it can be stopped.
      await with_window(world.browser, world.begin, async (page) => {
        execFileSync('gdal_translate', ['-q', '-outsize', '4000', '4000', '-r', 'bilinear', heights, join(folder, 'large.tif')]);
        await page.locator('input[aria-label="Files for a ground"]').setInputFiles([join(folder, 'large.tif'), paths]);
        await page.getByRole('button', { name: 'Take out paths.geojson' }).waitFor();
        await page.getByLabel('Name of the ground').fill('Large hill');
        await button(page, 'Build the ground').click();
        const working = page.getByRole('progressbar', { name: 'Making the ground' });
        await working.waitFor();
        await page.goto('about:blank');
        await page.goto(world.begin);
        await working.waitFor();
        assert.match(await page.getByRole('complementary', { name: 'Messages' }).innerText(), /Making the ground[\s\S]*\d+ s/);
        await button(page, 'Stop').click();
        await working.waitFor({ state: 'detached' });
        assert.equal(await page.getByRole('heading', { name: 'Large hill', exact: true }).count(), 0, 'nothing half-made is left');
      });

      // A file that holds no heights is refused in words, and nothing is built.
      writeFileSync(join(folder, 'no.tif'), 'these are not heights');
      await with_window(world.browser, world.begin, async (page) => {
        await page.locator('input[aria-label="Files for a ground"]').setInputFiles([join(folder, 'no.tif')]);
        await page.getByRole('button', { name: 'Take out no.tif' }).waitFor();
        await button(page, 'Build the ground').click();
        const told = page.getByRole('alert').first();
        await told.waitFor();
        assert.match(await told.innerText(), /no\.tif/);
        assert.equal(await page.evaluate(() => document.scrollingElement.scrollTop), 0, 'the window itself does not scroll');
      });
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
}
