// How quick the page is: medians, printed with the machine's load. Nothing is held to them here.
//   LODEWAY=build/release/bin/lodeway LODEWAY_GROUND=skarrow.gpkg node tests/web/measure.mjs
import { readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { launch, start_program, with_window } from './browser.mjs';
import { button, open_demo, step, wholly_read } from './steps.mjs';

const median = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const told = (what, ms) => console.log(`${what}: median ${median(ms).toFixed(0)} ms, ${Math.min(...ms).toFixed(0)} to ${Math.max(...ms).toFixed(0)} ms, ${ms.length} times`);
/** Processor time of the program, ms: user and system of /proc (proc(5), in hundredths of a second). */
const busy = (pid) => {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').replace(/^.*\) /, '').split(' ');
  return 10 * (Number(fields[11]) + Number(fields[12]));
};

const program = await start_program({ ground: process.env.LODEWAY_GROUND ?? null });
const browser = await launch();
const begin = `${program.url}#/-/ground`;
console.log(`${cpus().length} processors, load ${loadavg()[0].toFixed(1)} when begun`);
try {
  await with_window(browser, begin, async (page) => {
    const client = await page.context().newCDPSession(page);
    await client.send('Network.enable');
    let bytes = 0;
    client.on('Network.loadingFinished', (e) => (bytes += e.encodedDataLength));
    const took = [];
    for (let i = 0; i < 9; i++) {
      await client.send('Network.clearBrowserCache');
      bytes = 0;
      const begun = performance.now();
      await page.goto(begin);
      await button(page, 'Open the ground alone').waitFor();
      took.push(performance.now() - begun);
      await wholly_read(page);
      if (i < 8) await page.goto('about:blank');
    }
    told('usable, nothing in the browser’s store', took);
    console.log(`sent for it: ${(bytes / 1000).toFixed(0)} kB`);
  });
  await with_window(browser, begin, async (page) => {
    await open_demo(page);
    await step(page, 'Way').click();
    await button(page, /^Where are we\?/).click();
    await page.getByLabel('Minutes walked since').fill('25');
    await page.getByLabel('Last sure place', { exact: true }).selectOption({ label: 'Quenna Hause' });
    await page.getByRole('region', { name: 'Ask next' }).waitFor();
    const wall = [], cpu = [];
    for (const answer of [/, south-west$/, 'steep', 'spur', /, south$/, 'gentle', 'slope', /, west$/, 'steep', 'spur']) {
      await page.waitForFunction(() => !document.querySelector('.where.old'));
      await page.waitForTimeout(500);
      const key = page.getByRole('main').getByRole('button', { name: answer, exact: typeof answer === 'string' }).first();
      if (!(await key.count())) continue;
      const before = busy(program.pid);
      // By the page's own clock: from the click to the drawn frame after the answer.
      const ms = await key.evaluate((e) => new Promise((done) => {
        const from = performance.now();
        e.click();
        const look = () => (document.querySelector('.where.old') || performance.now() - from < 16 ? requestAnimationFrame(look) : requestAnimationFrame(() => done(performance.now() - from)));
        requestAnimationFrame(look);
      }));
      wall.push(ms);
      cpu.push(busy(program.pid) - before);
    }
    told('Where are we?, from an answer to the new map', wall);
    told('of it the program’s processor time', cpu);
  });
} finally {
  console.log(`load ${loadavg()[0].toFixed(1)} when ended`);
  await browser.close();
  await program.stop();
}
