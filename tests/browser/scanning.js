// How many of the camera's pictures are looked at a second on a slow phone, and what that costs the page. The processor is four
// times as slow as this machine's for the page and its workers alike. Prints a table. Run by `cargo xtask bench --codes`; not a
// test, because what else the machine does at the time goes into its numbers.

import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { joined } from './acts.js';
import { writeVideo } from './camera.js';
import { CHROMIUM, CHROMIUM_FLAGS, cameraFlags } from './chromium.js';
import { printedCodes } from './codes.js';
import { startHub } from './hub.js';
import { PHONE, Phone } from './phone.js';
import { slowedWhole } from './slow.js';

const SLOWER = 4;
const LOOK_MS = 10_000;
const FPS = 30;
const BLOCKED_MS = 50;
const SIZES = [[640, 480], [1280, 720]];
// The least that work which is always the same has taken in a worker so far: others may have had the machine at any one time.
let quick = Infinity;

const hub = await startHub();
const folder = await mkdtemp(join(tmpdir(), 'sweepbell-camera-'));
try {
  const blank = await chromium.launch({ executablePath: CHROMIUM, args: CHROMIUM_FLAGS });
  const page = await blank.newPage();
  // A wall that has something on it which is no code; and the code of a door of another shop, which is told and asked for again.
  const wall = await page.setContent('<h1 style="font: 90px serif">No code here</h1>').then(() => page.screenshot());
  const [door] = Object.values(await printedCodes(blank, 'https://yard.example.org'));
  const videos = [];
  for (const [name, png] of [['nothing to read', wall], ['a code', door]]) {
    for (const size of SIZES) {
      const file = join(folder, `${videos.length}.y4m`);
      await writeVideo(page, png, file, { size, fps: FPS });
      videos.push({ name, size, file });
    }
  }
  await blank.close();
  console.log(`| ${SLOWER} times slower than this machine, camera of ${FPS} pictures a second | looks a second | read | page blocked over ${BLOCKED_MS} ms, longest | the same work in a worker |\n| --- | --- | --- | --- | --- |`);
  for (const { name, size, file } of videos) {
    for (const workers of [true, false]) {
      const { looks, reads, blocked, slower } = await scanned(file, workers);
      const longest = Math.round(Math.max(0, ...blocked));
      const where = workers ? 'beside the page' : 'on the page, as where no worker starts';
      const over = blocked.filter((ms) => ms > BLOCKED_MS).length;
      console.log(`| ${size.join(' by ')}, ${name}, ${where} | ${looks.toFixed(1)} | ${reads.toFixed(1)} | ${over} times in ${LOOK_MS / 1000} s, ${longest} ms | ${slower.toFixed(1)} times slower |`);
    }
  }
} finally {
  await hub.dispose();
  await rm(folder, { recursive: true, force: true });
}

// What comes of the camera in the app's own sheet; with a code, of its camera alone, because the sheet closes on one.
async function scanned(video, workers) {
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: [...CHROMIUM_FLAGS, ...cameraFlags(video)] });
  try {
    const context = await browser.newContext({ ...PHONE, permissions: ['camera'], bypassCSP: true });
    await context.addInitScript(({ workers }) => {
      localStorage.setItem('sweepbell.welcomed', '1');
      const seen = (window.seen = { looks: 0, reads: 0, blocked: [] });
      new PerformanceObserver((list) => seen.blocked.push(...list.getEntries().map(({ duration }) => duration))).observe({ type: 'longtask' });
      const { getImageData } = CanvasRenderingContext2D.prototype;
      CanvasRenderingContext2D.prototype.getImageData = function (...of) {
        seen.looks += 1;
        return getImageData.apply(this, of);
      };
      window.OwnWorker = Worker;
      if (!workers) delete window.Worker;
    }, { workers });
    const phone = new Phone(context, await context.newPage(), hub);
    await joined(phone, 'Noor');
    await phone.settled();
    await phone.page.evaluate(async () => {
      const name = performance.getEntriesByType('resource').map(({ name }) => name).find((name) => name.includes('/own-'));
      const { 0: camera } = (await (await fetch(name)).text()).match(/\/assets\/later_camera-\w+\.js/);
      const { start } = await import(camera);
      const place = document.body.appendChild(document.createElement('video'));
      await start(place, () => (window.seen.reads += 1));
    });
    const worked = () => phone.page.evaluate(work);
    for (let time = 0; time < 3; time++) quick = Math.min(quick, await worked());
    const end = await slowedWhole(browser, SLOWER);
    const slower = (await worked()) / quick;
    await phone.page.waitForTimeout(1_000);
    const told = () => phone.page.evaluate(() => ({ at: performance.now(), ...window.seen, blocked: window.seen.blocked.splice(0) }));
    const before = await told();
    await phone.page.waitForTimeout(LOOK_MS);
    const after = await told();
    await end();
    const seconds = (after.at - before.at) / 1000;
    return { looks: (after.looks - before.looks) / seconds, reads: (after.reads - before.reads) / seconds, blocked: after.blocked, slower };
  } finally {
    await browser.close();
  }
}

// In the page: how long a worker takes for work that is always the same.
async function work() {
  const text = 'const began = performance.now(); let sum = 0; for (let at = 0; at < 1e8; at++) sum += at % 7; postMessage(performance.now() - began + sum * 0);';
  return new Promise((done) => (new OwnWorker(URL.createObjectURL(new Blob([text]))).onmessage = ({ data }) => done(data)));
}
