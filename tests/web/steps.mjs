// What a leader does, in the page's words. Everything goes through what is seen and named.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';

export const button = (page, name) => page.getByRole('button', { name, exact: typeof name === 'string' });
export const step = (page, name) => page.getByRole('navigation', { name: /^Steps/ }).getByRole('link', { name: new RegExp(`^${name}`) });

export async function open_demo(page, example = true) {
  await button(page, example ? 'Open with the example round' : 'Open the ground alone').click();
  await page.getByRole('heading', { name: 'Skarrow Fells', exact: true }).waitFor({ timeout: 60_000 });
  await page.locator('#map .target canvas').first().waitFor();
}
export async function look_for_ways(page) {
  await button(page, /^Look for ways/).click();
  await ways_found(page);
}
/** The ways shown are of the trip as it is: nothing is sought any more and nothing is of before. */
export async function ways_found(page) {
  await page.waitForFunction(() => {
    const words = [...document.querySelectorAll('button, b')].map((e) => e.textContent.trim());
    return document.querySelector('[aria-label="Chosen leg"]') && !words.includes('Stop') && !words.includes('Look again');
  }, null, { timeout: 90_000 });
}
/** All parts of the page are read: the map's comes after the first picture. */
export async function wholly_read(page) {
  await page.waitForFunction(() => performance.getEntriesByType('resource').some((e) => /MapView.*\.js$/.test(e.name) && e.responseEnd > 0));
}
export async function saved(page) {
  await page.waitForFunction(() => !Object.keys(sessionStorage).some((k) => k.startsWith('lodeway:waiting:')));
}

/** A download, whole, as bytes. */
export async function download(page, link) {
  const [got] = await Promise.all([page.waitForEvent('download'), link()]);
  assert.equal(await got.failure(), null);
  return { name: got.suggestedFilename(), bytes: readFileSync(await got.path()) };
}
export function is_pdf({ name, bytes }) {
  assert.match(name, /\.pdf$/);
  assert.equal(bytes.subarray(0, 5).toString(), '%PDF-');
  assert.match(bytes.subarray(-32).toString('latin1'), /%%EOF/);
  assert.ok(bytes.length > 5_000, `${name} is small: ${bytes.length} bytes`);
}
/** One file with all that is printed: what it holds is read from its own list (APPNOTE 6.3, 4.3.12 and 4.3.16). */
export function is_zip_of_pdfs({ name, bytes }) {
  const end = bytes.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  assert.ok(end >= 0, `${name} has no list of what it holds`);
  const held = [];
  for (let at = bytes.readUInt32LE(end + 16), i = 0; i < bytes.readUInt16LE(end + 10); i++) {
    assert.equal(bytes.readUInt32LE(at), 0x02014b50);
    const [long, extra, remark] = [28, 30, 32].map((o) => bytes.readUInt16LE(at + o));
    held.push(bytes.subarray(at + 46, at + 46 + long).toString());
    at += 46 + long + extra + remark;
  }
  assert.ok(held.filter((file) => file.endsWith('.pdf')).length >= 3, `three PDFs or more in ${held}`);
}

/** Where the tab key goes until something fits; fails when it comes round without. */
export async function tab_to(page, fits, most = 120) {
  const seen = [];
  for (let i = 0; i < most; i++) {
    await page.keyboard.press('Tab');
    const told = await page.evaluate(() => {
      const e = document.activeElement;
      if (!e || e === document.body) return '';
      const labels = e.labels?.[0]?.textContent ?? '';
      return (e.getAttribute('aria-label') ?? (labels || e.textContent) ?? '').trim().replace(/\s+/g, ' ');
    });
    seen.push(told);
    if (fits.test(told)) return told;
  }
  throw new Error(`tab never came to ${fits}; it went through\n${seen.join('\n')}`);
}
