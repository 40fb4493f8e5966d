// What the app costs a phone while nobody touches it: how often it wakes, how long it works, what it asks of the hub and how many
// bytes come and go, by the browser's own counters. In Room with a session under way and nothing going on, seen and out of sight;
// with the network cut; and with the hub gone. Prints a table. Run by `cargo xtask bench --battery`; not a test, because what else
// the machine does at the time goes into its numbers. What must hold of it is a test: `quiet.spec.js`.

import { chromium } from '@playwright/test';
import { arrive, joined, startMachine } from './acts.js';
import { CHROMIUM, CHROMIUM_FLAGS } from './chromium.js';
import { startHub } from './hub.js';
import { PHONE, Phone } from './phone.js';
import { listened, outOfSight } from './radio.js';

const MINUTES = Number(process.argv[2] ?? 3);
const MS = 60_000;

const hub = await startHub();
const browser = await chromium.launch({ executablePath: CHROMIUM, args: CHROMIUM_FLAGS });
try {
  const context = await browser.newContext({ ...PHONE, permissions: ['camera', 'notifications'] });
  await context.addInitScript(() => localStorage.setItem('sweepbell.welcomed', '1'));
  const phone = new Phone(context, await context.newPage(), hub);
  const radio = await listened(phone.page);
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await startMachine(phone, 'Pillar drill');
  await phone.go('Room');
  await phone.settled();
  const rows = [];
  const one = async (name) => {
    // What was begun before is over.
    await phone.page.waitForTimeout(10_000);
    const before = await radio.counted();
    await phone.page.waitForTimeout(MINUTES * MS);
    const after = await radio.counted();
    rows.push([name, ...told(before, after)]);
  };
  await one('seen, in Room, a machine running');
  await outOfSight(phone.page, true);
  await one('the same, out of sight');
  await outOfSight(phone.page, false);
  await phone.offline();
  await one('seen, no network');
  await phone.offline(false);
  await hub.stop();
  await one('seen, the hub gone');
  console.log(`| over ${MINUTES} min each, nobody touches it | wake-ups a minute | script, and all work, ms a minute | requests an hour | words of the stream an hour | bytes an hour, there and back |
| --- | --- | --- | --- | --- | --- |
${rows.map((row) => `| ${row.join(' | ')} |`).join('\n')}`);
} finally {
  await browser.close();
  await hub.dispose();
}

function told(before, after) {
  const minutes = (after.at - before.at) / MS;
  const [each, hourly] = [(of) => (after[of] - before[of]) / minutes, (of) => Math.round(((after[of] - before[of]) / minutes) * 60)];
  return [
    Math.round(each('wakes')),
    `${Math.round(each('scriptMs'))}, ${Math.round(each('taskMs'))}`,
    hourly('requests'),
    hourly('words'),
    `${hourly('sent')}, ${hourly('received')}`,
  ];
}
