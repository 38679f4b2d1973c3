// The program under test, a browser, and windows that are watched.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, readlinkSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const of_the_page = createRequire(new URL('../../web/package.json', import.meta.url));
const { chromium } = of_the_page('playwright-core');
export const axe_file = of_the_page.resolve('axe-core/axe.min.js');

const program = process.env.LODEWAY ?? fileURLToPath(new URL('../../build/release/bin/lodeway', import.meta.url));

/** Starts the program on a free port, or on the one it had; resolves when it tells its address. `ground`: the demo
 * ground of another program, so that it is not made again. */
export async function start_program({ state = mkdtempSync(join(tmpdir(), 'lodeway-web-')), port = 0, ground = null } = {}) {
  if (ground) {
    mkdirSync(join(state, 'grounds'), { recursive: true });
    cpSync(ground, join(state, 'grounds', 'skarrow.gpkg'));
  }
  const child = spawn(program, ['serve', '--port', String(port), '--state', state], { stdio: ['ignore', 'pipe', 'inherit'] });
  const url = await new Promise((resolve, reject) => {
    createInterface({ input: child.stdout }).once('line', resolve);
    child.once('exit', (code) => reject(new Error(`lodeway serve ended with ${code}`)));
    child.once('error', reject);
  });
  const gone = new Promise((resolve) => child.once('exit', resolve));
  return {
    url, state, pid: child.pid, port: Number(new URL(url).port),
    async kill() {
      child.kill('SIGKILL');
      await gone;
    },
    async stop() {
      child.kill('SIGTERM');
      await gone;
      rmSync(state, { recursive: true, force: true });
    },
  };
}

/** Addresses that the process talks to or listens on, other than this machine's own. */
export function strangers(pid) {
  const inodes = new Set(readdirSync(`/proc/${pid}/fd`).flatMap((fd) => {
    try {
      return [...readlinkSync(`/proc/${pid}/fd/${fd}`).matchAll(/^socket:\[(\d+)\]$/g)].map((m) => m[1]);
    } catch {
      return [];
    }
  }));
  const own = /^(0100007F|0{24}01000000|0{16}FFFF00000100007F|0{8}|0{32})$/;
  return ['tcp', 'tcp6', 'udp', 'udp6'].flatMap((table) =>
    readFileSync(`/proc/${pid}/net/${table}`, 'utf8').trim().split('\n').slice(1)
      .map((line) => line.trim().split(/\s+/))
      .filter((f) => inodes.has(f[9]))
      .flatMap((f) => [[f[1].split(':')[0], f[3] === '0A' ? 'listens' : 'from'], [f[2].split(':')[0], 'to']])
      .filter(([address, what]) => !own.test(address) || (what === 'listens' && /^0+$/.test(address)))
      .map(([address, what]) => `${table} ${what} ${address}`));
}

export const launch = () => chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--headless', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync', '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
});

/** A window whose requests and complaints are kept; `settle` at a test's end looks at them. */
export async function open_window(browser, url, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, colorScheme: 'light', reducedMotion: 'reduce', ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const origin = new URL(url).origin;
  const abroad = [], complaints = [];
  context.on('request', (r) => {
    const to = r.url();
    if (!to.startsWith(`${origin}/`) && !to.startsWith('data:') && !to.startsWith(`blob:${origin}`)) abroad.push(to);
  });
  page.on('pageerror', (e) => complaints.push(e.message));
  page.on('console', (m) => {
    // A program that was killed is not there: the browser says so by itself.
    if (m.type() === 'error' && !/Failed to load resource/.test(m.text())) complaints.push(m.text());
  });
  await page.goto(url);
  return {
    page, context,
    async settle() {
      await context.close();
      assert.deepEqual(abroad, [], 'requests left the machine');
      assert.deepEqual(complaints, [], 'the page complained');
    },
  };
}

/** Runs `what` with a window that is looked at when it ends well. */
export async function with_window(browser, url, what, options) {
  const window = await open_window(browser, url, options);
  try {
    await what(window.page, window.context);
  } catch (e) {
    if (process.env.LODEWAY_SHOTS) await window.page.screenshot({ path: join(process.env.LODEWAY_SHOTS, `failed-${Date.now()}.png`) });
    await window.context.close();
    throw e;
  }
  await window.settle();
}
