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
