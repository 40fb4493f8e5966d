// How quickly the app starts without a network on a slow phone, and whether a finger ever waits: the browser's own clock and
// counters, with the processor four times as slow as this machine's. Prints a table. Run by `cargo xtask bench --phone`; not a
// test, because what else the machine does at the time goes into its numbers.
//
// A log of 20,000 entries, or as many as are asked for, is the demo's, said again by other phones over the two years before, each
// line signed by its phone's key.

import { chromium, expect } from '@playwright/test';
import { arrive, joined, startMachine, startSweep } from './acts.js';
import { installCamera } from './camera.js';
import { CHROMIUM, CHROMIUM_FLAGS } from './chromium.js';
import { startHub } from './hub.js';
import { keeps, tallyOf } from './long_log.js';
import { PHONE, Phone } from './phone.js';
import { hubLines } from './record.js';

const SLOWER = 4;
const STARTS = 5;
const ENTRIES = Number(process.argv[2] ?? 20_000);
// The pages of Book that are reckoned, each by something that is there once it has been.
const PAGES = [
  ['Today', '.needs'],
  ['Finds', '.finds'],
  ['Repairs', '.rows'],
  ['Rounds', '.round-kept'],
  ['Incidents', 'main .rows'],
  ['Figures', '.sheet-of-figures'],
  ['People', '.rows'],
];
const BLOCKED_MS = 50;
// After so long whatever a touch began is over, on the slow phone too.
const SETTLED_MS = 1_500;
const PATIENCE_MS = 120_000;

// A phone that is slow from each touch until what the touch began is over, and on which nothing but the app runs meanwhile: looking
// for a button, which the test's driver does in the page, would be counted with what the app does.
class SlowPhone extends Phone {
  counted = { blocked: [], taps: [] };
  slower = SLOWER;

  async tap(name) {
    await this.touch(this.button(name));
  }

  async go(place) {
    await this.touch(this.place(place));
  }

  async touch(element) {
    await element.tap({ trial: true });
    const { x, y, width, height } = await element.boundingBox();
    await told(this);
    await slowed(this.page, this.slower);
    await this.page.touchscreen.tap(x + width / 2, y + height / 2);
    await new Promise((done) => setTimeout(done, SETTLED_MS));
    const { blocked, taps } = await told(this);
    await slowed(this.page, 1);
    this.counted.blocked.push(...blocked);
    this.counted.taps.push(...taps);
  }
}

const hub = await startHub();
const browser = await chromium.launch({ executablePath: CHROMIUM, args: CHROMIUM_FLAGS });
try {
  const rows = [];
  const noor = await phone(SlowPhone);
  await joined(noor, 'Noor');
  rows.push(['offline start to a usable screen, a member, nothing said yet', await starts(noor, 'At the door')]);
  const marit = await phone();
  await joined(marit, 'Marit');
  const kept = await keeps(marit, hubLines(hub), ENTRIES);
  const [first] = await startTimes(marit, 'At the door', 1);
  rows.push([`the same, a steward, ${kept} entries that were just heard`, `${first} ms`]);
  const tallied = await tallies(marit);
  rows.push([`the same, once they were folded (${tallied})`, await starts(marit, 'At the door')]);
  for (const [name, ms] of await pages(marit)) rows.push([`its ${name}, from the touch to the first picture with what was reckoned`, ms]);
  const ilse = await phone(SlowPhone);
  await joined(ilse, 'Ilse');
  for (const [who, slower, how] of [[noor, SLOWER, ''], [ilse, 1, ', as quick as this machine']]) {
    who.slower = slower;
    const { blocked, taps } = await journey(who);
    rows.push([`the page blocked at once, longest, over an evening${how}`, `${blocked.longest} ms, ${blocked.over.length} times over ${BLOCKED_MS} ms${blocked.over.length ? `: ${blocked.over.join(', ')}` : ''}`]);
    rows.push([`a touch answered, ${taps.count} touches: half, 99 in 100, longest${how}`, `${taps.half}, ${taps.most}, ${taps.longest} ms`]);
  }
  console.log(`| four times slower than this machine | figure |\n| --- | --- |\n${rows.map((row) => `| ${row.join(' | ')} |`).join('\n')}`);
} finally {
  await browser.close();
  await hub.dispose();
}

// A phone by the browser's own clock.
async function phone(Kind = Phone) {
  const context = await browser.newContext({ ...PHONE, permissions: ['camera', 'notifications'] });
  await context.addInitScript(() => localStorage.setItem('sweepbell.welcomed', '1'));
  await context.addInitScript(() => {
    const counted = { blocked: [], taps: [] };
    const takeBlocked = (entries) => counted.blocked.push(...entries.map(({ duration }) => duration));
    const takeTaps = (entries) => counted.taps.push(...entries.filter(({ interactionId }) => interactionId).map(({ duration }) => duration));
    const [tasks, events] = [takeBlocked, takeTaps].map((take) => new PerformanceObserver((list) => take(list.getEntries())));
    tasks.observe({ type: 'longtask', buffered: true });
    events.observe({ type: 'event', durationThreshold: 16, buffered: true });
    const seen = (window.seen = {
      usable: null,
      told() {
        takeBlocked(tasks.takeRecords());
        takeTaps(events.takeRecords());
        return { blocked: counted.blocked.splice(0), taps: counted.taps.splice(0) };
      },
    });
    // What can be read and pressed, from the first picture that has it.
    const look = () => {
      const main = document.querySelector('main.screen h1, main.screen h2');
      if (main && document.querySelector('.place') && !document.querySelector('[aria-busy=true]')) seen.usable = performance.now();
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await installCamera(context);
  return new Kind(context, await context.newPage(), hub);
}

async function slowed(page, rate) {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}

// The middle and the worst of some starts without a network.
async function starts(phone, words) {
  const times = await startTimes(phone, words, STARTS);
  return `${times[Math.floor(STARTS / 2)]} ms, ${times.at(-1)} at worst`;
}

async function startTimes(phone, words, count) {
  await phone.settled();
  await phone.offline();
  await slowed(phone.page, SLOWER);
  const times = [];
  for (let start = 0; start < count; start++) {
    await phone.page.goto(hub.origin);
    await phone.page.getByText(words).first().waitFor({ timeout: PATIENCE_MS });
    times.push(Math.round(await phone.page.evaluate(() => new Promise((done) => {
      const ask = () => (window.seen.usable === null ? setTimeout(ask, 20) : done(window.seen.usable));
      ask();
    }))));
  }
  await slowed(phone.page, 1);
  await phone.offline(false);
  return times.sort((one, other) => one - other);
}

// Once the page has been idle for long enough to prove the lines and keep what follows from them: how large that is.
async function tallies(phone) {
  await expect.poll(() => tallyOf(phone), { timeout: 5 * PATIENCE_MS }).not.toBeNull();
  return `${Math.round((await tallyOf(phone)).bytes / 1000)} KB`;
}

// Each page, opened from Book by a touch on the slow phone: the middle and the worst of some, in ms.
async function pages(phone) {
  await slowed(phone.page, SLOWER);
  const told = [];
  for (const [name, there] of PAGES) {
    const times = [];
    for (let time = 0; time < STARTS; time++) {
      await phone.go('Book');
      const way = phone.page.locator('.page-way').filter({ has: phone.page.getByText(name, { exact: true }) });
      await way.scrollIntoViewIfNeeded();
      const drawn = phone.page.evaluate(
        ([name, there]) =>
          new Promise((done) => {
            let from;
            addEventListener('pointerup', () => (from = performance.now()), { capture: true, once: true });
            const look = () => {
              const is = document.querySelector('h1')?.textContent === name && document.querySelector(there);
              if (from && is) done(performance.now() - from);
              else requestAnimationFrame(look);
            };
            requestAnimationFrame(look);
          }),
        [name, there],
      );
      await way.tap();
      times.push(Math.round(await drawn));
    }
    times.sort((one, other) => one - other);
    told.push([name, `${times[Math.floor(STARTS / 2)]} ms, ${times.at(-1)} at worst`]);
  }
  await slowed(phone.page, 1);
  return told;
}

// What the browser has counted since it was last asked, what it has not handed out yet too.
async function told(phone) {
  return phone.page.evaluate(() => window.seen.told());
}

// An evening by a thumb, on the slow phone: what blocked the page, and how long each touch took to be answered.
async function journey(phone) {
  await phone.open('/');
  await phone.hears('At the door');
  await phone.page.waitForFunction(() => performance.getEntriesByType('resource').some(({ name }) => name.includes('/later_bg')));
  const [blocked, taps] = [[], []];
  // What the browser counted in an act, each block with the act's name.
  const during = async (name, act) => {
    phone.counted = { blocked: [], taps: [] };
    await act();
    blocked.push(...phone.counted.blocked.map((ms) => [ms, name]));
    taps.push(...phone.counted.taps);
  };
  await during('arriving', () => arrive(phone, 'Fitting'));
  for (const place of ['Sweep', 'Room', 'Bench', 'Door', 'Bench', 'Book', 'Bench']) await during(`to ${place}`, () => phone.go(place));
  await during('starting a machine', () => startMachine(phone, 'Pillar drill'));
  await during('asking why', () => phone.tap('Why these times?'));
  await during('back from why', () => phone.tap('Back'));
  await during('moving out-by', () => phone.tap(/^Out by .* move/));
  await during('back from out-by', () => phone.tap('Back'));
  await during('stopping a machine', () => phone.tap('Stop: Pillar drill'));
  await during('starting the sweep', () => startSweep(phone));
  while ((await phone.page.getByRole('checkbox', { checked: false }).count()) > 0) await during('a chore', () => phone.touch(phone.page.locator('.chore-row.is-next')));
  await during('leaving', async () => {
    await phone.tap('I have left it clean');
    await phone.hears('At the door');
  });
  taps.sort((one, other) => one - other);
  const longest = Math.round(Math.max(0, ...blocked.map(([ms]) => ms)));
  const at = (share) => taps[Math.min(taps.length - 1, Math.floor(taps.length * share))] ?? 0;
  return {
    blocked: { longest, over: blocked.filter(([ms]) => ms > BLOCKED_MS).map(([ms, name]) => `${name} ${Math.round(ms)}`) },
    taps: { count: taps.length, half: at(0.5), most: at(0.99), longest: taps.at(-1) ?? 0 },
  };
}
