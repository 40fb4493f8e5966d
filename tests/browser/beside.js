// The app beside the same five-screen shell in a small JavaScript framework (baseline/): how soon each starts without a network and
// how soon a touch is answered, in one run, with the processor four times as slow as this machine's. The shell signs nothing, plans
// nothing, syncs nothing and rings no bell: it is what is left of the app without its work. Prints a table. Run by `cargo xtask
// bench --beside`; not a test, because what else the machine does at the time goes into its numbers.

import { createServer } from 'node:http';
import { readFile, readdir } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';
import { chromium } from '@playwright/test';
import { arrive, joined, startSweep } from './acts.js';
import { CHROMIUM, CHROMIUM_FLAGS } from './chromium.js';
import { DIST, startHub } from './hub.js';
import { PHONE, Phone } from './phone.js';

const SLOWER = 4;
const STARTS = 7;
const ROUNDS = 4;
const TICKS = 5;
const HERE = dirname(fileURLToPath(import.meta.url));
const PLACES = ['Sweep', 'Room', 'Bench', 'Book', 'Door'];
const TYPES = { '.html': 'text/html', '.js': 'text/javascript', '.mjs': 'text/javascript', '.css': 'text/css', '.json': 'application/json' };

const hub = await startHub();
const baseline = await served();
const browser = await chromium.launch({ executablePath: CHROMIUM, args: CHROMIUM_FLAGS });
try {
  const app = await phone(hub);
  await joined(app, 'Noor');
  await arrive(app, 'Fitting');
  const shell = await phone(baseline);
  await shell.open('/');
  await shell.tap(/^Fitting/);
  const sides = [];
  for (const one of [app, shell]) {
    await one.go('Bench');
    await one.settled();
    await one.page.waitForTimeout(3_000);
    await one.offline();
  }
  // By turns: what else the machine does meets both.
  const starts = [[], []];
  for (let start = 0; start < STARTS; start++) for (const [at, one] of [app, shell].entries()) starts[at].push(await started(one));
  for (const [at, one] of [app, shell].entries()) {
    const nodes = await shown(one);
    const { places, answered } = await walked(one);
    await one.go(one === app ? 'Bench' : 'Sweep');
    if (one === app) await startSweep(one);
    sides.push({ start: starts[at], places, ticks: await ticked(one), answered, nodes });
  }
  const sent = [await downloaded(), baseline.sent()];
  const row = (name, of, unit) => {
    const [ours, theirs] = sides.map(of);
    return `| ${name} | ${ours.map(Math.round).join(', ')} ${unit} | ${theirs.map(Math.round).join(', ')} ${unit} | ${(ours[0] / theirs[0]).toFixed(1)} |`;
  };
  console.log('| four times slower than this machine, no network | the app | the shell | ratio |\n| --- | --- | --- | --- |');
  console.log(row(`start to a screen that can be read and pressed, ${STARTS} times: middle, worst`, ({ start }) => middleAndWorst(start), 'ms'));
  console.log(row('a place touched, until its screen is drawn', ({ places }) => middleAndWorst(places), 'ms'));
  console.log(row('a chore ticked, until it is kept and drawn', ({ ticks }) => middleAndWorst(ticks), 'ms'));
  console.log(row('a touch answered, by the browser', ({ answered }) => middleAndWorst(answered), 'ms'));
  console.log(row(`elements drawn on ${PLACES.join(', ')}, together`, ({ nodes }) => [nodes], ''));
  console.log(`| first visit, WebAssembly, scripts and styles, brotli | ${sent[0]} bytes | ${sent[1]} bytes | ${(sent[0] / sent[1]).toFixed(1)} |`);
} finally {
  await browser.close();
  await hub.dispose();
  baseline.close();
}

function middleAndWorst(times) {
  const sorted = times.toSorted((one, other) => one - other);
  return [sorted[Math.floor(sorted.length / 2)], sorted.at(-1)];
}

// The shell, with the app's own styles, on a port of its own.
async function served() {
  const assets = await readdir(join(DIST, 'assets'));
  const styles = join(DIST, 'assets', assets.find((name) => /^styles-.*\.css$/.test(name)));
  const packages = join(HERE, 'node_modules/preact');
  const named = { '/preact.mjs': join(packages, 'dist/preact.mjs'), '/hooks.mjs': join(packages, 'hooks/dist/hooks.mjs'), '/styles.css': styles };
  for (const name of ['app.js', 'store.js', 'screens.js', 'sw.js', 'shop.json']) named[`/${name}`] = join(HERE, 'baseline', name);
  const texts = new Map();
  for (const [path, file] of Object.entries(named)) texts.set(path, await readFile(file));
  const page = await readFile(join(HERE, 'baseline/index.html'));
  const server = createServer(({ url }, answer) => {
    const bytes = texts.get(url) ?? (url.startsWith('/assets/') ? null : page);
    answer.writeHead(bytes ? 200 : 404, { 'content-type': texts.has(url) ? TYPES[extname(url)] : 'text/html' });
    answer.end(bytes);
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const sent = () => [...texts].filter(([path]) => !path.endsWith('.json')).reduce((sum, [, bytes]) => sum + brotliCompressSync(bytes).length, 0);
  return { origin: `http://127.0.0.1:${server.address().port}`, sent, close: () => server.close() };
}

// What the first visit to the app takes, as `cargo xtask bundle` counts it.
async function downloaded() {
  let sum = 0;
  for (const folder of ['', 'assets']) {
    for (const name of await readdir(join(DIST, folder))) {
      if (/\.(js|wasm|css)\.br$/.test(name) && !name.startsWith('later')) sum += (await readFile(join(DIST, folder, name))).length;
    }
  }
  return sum;
}

async function phone(of) {
  const context = await browser.newContext({ ...PHONE, permissions: ['camera', 'notifications'] });
  await context.addInitScript(() => {
    localStorage.setItem('sweepbell.welcomed', '1');
    const seen = (window.seen = { usable: null, answered: [] });
    const take = (list) => seen.answered.push(...list.getEntries().filter(({ interactionId }) => interactionId).map(({ duration }) => duration));
    new PerformanceObserver(take).observe({ type: 'event', durationThreshold: 16, buffered: true });
    const look = () => {
      if (document.querySelector('main.screen h1') && document.querySelector('.place') && !document.querySelector('[aria-busy=true]')) seen.usable = performance.now();
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  return new Phone(context, await context.newPage(), of);
}

async function slowed({ page }, rate) {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}

// One start, in ms.
async function started(one) {
  await slowed(one, SLOWER);
  await one.open('/bench');
  await one.page.waitForFunction(() => window.seen.usable !== null);
  const ms = await one.page.evaluate(() => window.seen.usable);
  await slowed(one, 1);
  return ms;
}

// How many elements the five screens have.
async function shown(one) {
  let sum = 0;
  for (const place of PLACES) {
    await one.go(place);
    await one.page.waitForTimeout(1_500);
    sum += await one.page.evaluate(() => document.querySelectorAll('.frame *').length);
  }
  return sum;
}

// From a touch to the first picture in which there are so many of these, in ms.
async function drawn(one, selector, many, touch) {
  const told = one.page.evaluate(
    ([selector, many]) =>
      new Promise((done) => {
        let from;
        addEventListener('pointerup', () => (from = performance.now()), { capture: true, once: true });
        const look = () => {
          if (from && document.querySelectorAll(selector).length >= many) done(performance.now() - from);
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    [selector, many],
  );
  await touch();
  return told;
}

// Every place, some times over, on the slow phone.
async function walked(one) {
  await slowed(one, SLOWER);
  await one.page.evaluate(() => window.seen.answered.splice(0));
  const times = [];
  for (let round = 0; round < ROUNDS; round++) {
    for (const place of PLACES) {
      const href = place === 'Door' ? '/' : `/${place.toLowerCase()}`;
      times.push(await drawn(one, `.place[href="${href}"][aria-current=page]`, 1, () => one.go(place)));
    }
  }
  await one.page.waitForTimeout(500);
  const answered = await one.page.evaluate(() => window.seen.answered);
  await slowed(one, 1);
  return { places: times, answered };
}

// The chores in their order.
async function ticked(one) {
  await slowed(one, SLOWER);
  const times = [];
  const next = one.page.locator('.chore-row.is-next, .chore-row[aria-checked=false]');
  while (times.length < TICKS) times.push(await drawn(one, '.chore-row[aria-checked=true]', times.length + 1, () => next.first().tap()));
  await slowed(one, 1);
  return times;
}
