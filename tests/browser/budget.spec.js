// The budget of acts: how many touches, and how long at a slow pace (pace.js), each of the things takes that members do
// with dirty hands. What is over its budget fails; the table of all is printed at the end.

import { expect, test } from '@playwright/test';
import { arrive, atBench, joined, machine, scanAsk, startMachine, startSweep } from './acts.js';
import { startHub } from './hub.js';
import { touchSeconds, typingSeconds, wordsOf } from './pace.js';
import { openPhone } from './phone.js';

const SENTENCE = 'Blade guard is loose';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => {
  await hub.dispose();
  console.log(table());
});
test.describe.configure({ timeout: 90_000 });

const measured = [];

// Does something, and counts its touches and its seconds: the app's own, and the pace of whoever touches, reads and types.
async function counted(phone, does) {
  let more = 0;
  const pace = {
    // What is read before the next touch.
    reads: (text) => (more += touchSeconds(wordsOf(text)) - touchSeconds()),
    types: (text) => (more += typingSeconds(text)),
  };
  phone.taps = 0;
  await phone.page.evaluate(watchScreens);
  await does(pace);
  const own = await phone.page.evaluate(() => globalThis.ownMs / 1_000);
  return { taps: phone.taps, seconds: own + phone.taps * touchSeconds() + more };
}

// In the page: from each touch to the frame in which another screen or sheet is there, added up. What the test itself takes
// to look and to touch is no part of it.
function watchScreens() {
  const watched = 'ownMs' in globalThis;
  globalThis.ownMs = 0;
  if (watched) return;
  const shown = () => [...document.querySelectorAll('h1')].map((heading) => heading.textContent).join();
  addEventListener(
    'pointerdown',
    () => {
      const [before, at] = [shown(), performance.now()];
      const look = () => (shown() === before ? requestAnimationFrame(look) : (globalThis.ownMs += performance.now() - at));
      look();
    },
    { capture: true },
  );
}

// What was counted goes into the table, and is within its budget.
function holds(act, budget, { taps, seconds }) {
  measured.push({ act, taps, tapsMax: budget.taps, seconds, secondsMax: budget.seconds });
  expect(taps, `${act}: touches`).toBeLessThanOrEqual(budget.taps);
  if (budget.seconds) expect(seconds, `${act}: seconds`).toBeLessThanOrEqual(budget.seconds);
}

async function within(phone, act, budget, does) {
  holds(act, budget, await counted(phone, does));
}

function table() {
  const rows = measured.map(({ act, taps, tapsMax, seconds, secondsMax }) => `| ${act} | ${taps} of ${tapsMax} | ${seconds.toFixed(1)} s${secondsMax ? ` of ${secondsMax} s` : ''} |`);
  return ['', '| act | touches | at a slow pace |', '| --- | --- | --- |', ...rows].join('\n');
}

// From the first statement to Bench: each is read before it is answered.
async function attested(phone, pace, of = 3) {
  for (let step = 1; step <= of; step++) {
    await phone.hears(`${step} of ${of}`);
    pace.reads(await phone.page.locator('h1.statement').innerText());
    await phone.tap('Yes, it is so');
  }
  await phone.tap(/^Start, out by/);
  await atBench(phone);
}

test('Door to Bench', async ({ browser }) => {
  const [picking, posted] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(picking, 'Ilse');
  await within(picking, 'Door to Bench, the room picked', { taps: 6, seconds: 20 }, async (pace) => {
    await picking.tap(/^Fitting/);
    await attested(picking, pace);
  });
  await joined(posted, 'Bram');
  await posted.open('/d/fitting');
  await posted.hears('1 of 3');
  await within(posted, "Door to Bench, the door's code opened", { taps: 6, seconds: 20 }, (pace) => attested(posted, pace));
  await Promise.all([picking.close(), posted.close()]);
});

test('at work', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Forge');
  await within(phone, 'say that it was found clean', { taps: 1 }, async () => {
    await phone.tap('Found clean');
    await expect(phone.button('Found clean')).toHaveCount(0);
  });
  await within(phone, 'start a machine', { taps: 2 }, () => startMachine(phone, 'Needle scaler'));
  await within(phone, 'stop a machine', { taps: 1 }, async () => {
    await phone.tap('Stop: Needle scaler');
    await expect(machine(phone, 'Needle scaler')).not.toContainText('runs,');
  });
  await within(phone, 'tag a machine out, and one sentence', { taps: 3 }, async (pace) => {
    await phone.tap('Tag a machine out');
    await phone.tap('Needle scaler');
    // It can be typed at once: a touch to begin would be one more.
    await expect(phone.page.getByLabel('What is wrong with it?')).toBeFocused();
    await phone.page.keyboard.type(SENTENCE);
    pace.types(SENTENCE);
    await phone.tap('Tag out: Needle scaler');
    await expect(machine(phone, 'Needle scaler')).toContainText(SENTENCE);
  });
  await within(phone, 'say that a round was done', { taps: 2 }, async () => {
    await phone.go('Room');
    const due = phone.page.getByRole('button', { name: /^Done: / });
    await expect(due.first()).toBeVisible();
    const before = await due.count();
    await phone.tap(/^Done: /);
    await expect(due).toHaveCount(before - 1);
  });
  await phone.go('Bench');
  await startSweep(phone);
  await within(phone, 'a chore', { taps: 1 }, async () => {
    const left = phone.page.getByRole('checkbox', { checked: false });
    await expect(left.first()).toBeVisible();
    const before = await left.count();
    phone.taps += 1;
    await left.first().tap();
    await expect(left).toHaveCount(before - 1);
  });
  await within(phone, 'leave', { taps: 2 }, async () => {
    await phone.tap('Leave');
    await phone.tap('Leave the room');
    await phone.hears('At the door');
  });
  await phone.close();
});

test('a buddy confirms', async ({ browser }) => {
  const [ilse, bram] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  for (const [phone, name] of [[ilse, 'Ilse'], [bram, 'Bram']]) await joined(phone, name).then(() => arrive(phone, 'Fitting'));
  await ilse.tap('Ask for a buddy');
  await scanAsk(ilse, bram);
  await within(bram, 'confirm as a buddy, after the scan', { taps: 2 }, async (pace) => {
    pace.reads(await bram.page.locator('dialog .statement').innerText());
    await bram.tap('I am in the room');
    await bram.hears('Show them this');
    await bram.tap('Done');
  });
  await Promise.all([ilse.close(), bram.close()]);
});

// Every screen, and every sheet over one: the names to call out are one touch away. A bell alone has to be heard first.
test('muster from anywhere', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await phone.tap(/^Forge/);
  await phone.hears('1 of 3');
  const musters = (from) =>
    within(phone, `muster from ${from}`, { taps: 1 }, async () => {
      await phone.go('Room');
      await expect(phone.page.getByRole('heading', { name: 'Muster' })).toBeVisible();
      await expect(phone.page.locator('dialog[open]')).toHaveCount(0);
    });
  await musters('a statement');
  await phone.go('Door');
  for (let step = 1; step <= 3; step++) await phone.tap('Yes, it is so');
  await phone.tap(/^Start, out by/);
  await atBench(phone);
  await musters('Bench');
  await expect(phone.page.locator('main .row-name').first()).toHaveText('Noor (you)');
  for (const place of ['Door', 'Sweep', 'Book']) {
    await phone.go(place);
    await musters(place);
  }
  for (const [place, sheet] of [['Bench', 'Start: Angle grinder'], ['Bench', 'Ask for a buddy'], ['Room', 'Fire'], ['Room', 'Tell the steward something'], ['Sweep', 'Start sweeping']]) {
    await phone.go(place);
    await phone.tap(sheet);
    await expect(phone.page.locator('dialog[open]')).toBeVisible();
    await musters(`the sheet "${sheet}"`);
  }
  await phone.close();
});
