// Nothing polls when nothing can change: what the app does by itself while nobody touches it, counted by the browser.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { PHONE, Phone, openPhone, pass } from './phone.js';
import { listened, outOfSight } from './radio.js';

const LOOK_MS = 10_000;
// A tick each second, and the few that the five-second look at the screens takes.
const SEEN_MAX = 20;
const UNSEEN_MAX = 6;

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.beforeEach(async () => hub.restart());
test.afterAll(async () => hub.dispose());

// Paths that a phone asks the hub for from now on.
function asked(phone) {
  const paths = [];
  phone.page.on('request', (request) => {
    const { pathname } = new URL(request.url());
    if (pathname.startsWith('/api/')) paths.push(pathname);
  });
  return paths;
}

// In Room, everything said and heard.
async function idle(phone) {
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  await phone.go('Room');
  await phone.page.waitForTimeout(3_000);
}

test('a phone that nobody touches wakes once a second, out of sight each five, and asks nothing', async ({ browser }) => {
  const context = await browser.newContext({ ...PHONE, permissions: ['camera', 'notifications'] });
  await context.addInitScript(() => localStorage.setItem('sweepbell.welcomed', '1'));
  const phone = new Phone(context, await context.newPage(), hub);
  const radio = await listened(phone.page);
  await idle(phone);
  for (const [hidden, most] of [[false, SEEN_MAX], [true, UNSEEN_MAX]]) {
    await outOfSight(phone.page, hidden);
    await phone.page.waitForTimeout(3_000);
    const before = await radio.counted();
    await phone.page.waitForTimeout(LOOK_MS);
    const after = await radio.counted();
    expect(after.wakes - before.wakes).toBeGreaterThan(0);
    expect(after.wakes - before.wakes).toBeLessThanOrEqual(most);
    expect(after.requests - before.requests).toBe(0);
  }
  await phone.close();
});

test('while the stream is heard a minute is no reason to ask; when it falls silent it is', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await idle(phone);
  const paths = asked(phone);
  await pass([phone], { seconds: 70 });
  await phone.ticks();
  expect(paths).toEqual([]);
  await pass([phone], { seconds: 70 });
  await expect.poll(() => paths).toContain('/api/sync');
  await phone.close();
});

test('a hub that is gone is asked for less and less often, and found again', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await idle(phone);
  const paths = asked(phone);
  await hub.stop();
  await expect.poll(() => paths).toContain('/api/sync');
  await phone.page.waitForTimeout(LOOK_MS);
  expect(paths).not.toContain('/api/live');
  await hub.start();
  await pass([phone], { seconds: 70 });
  await expect.poll(() => paths).toContain('/api/live');
  await phone.close();
});
