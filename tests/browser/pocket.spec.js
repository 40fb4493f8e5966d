// The hub rings a phone in a pocket: what Bench says of that, the touch that lets it, the message end to end, and the notice
// that the service worker shows of it, with the page seen, out of sight and closed.

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from '@playwright/test';
import { arrive, hearBell, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { deliver, notices, pushed, startPushService, subscribeAt } from './pushes.js';

const DEMO = resolve(dirname(fileURLToPath(import.meta.url)), '../../hub/demo');
const ARMED = /^The hub rings this phone/;
const UNASKED = /^Locked in a pocket, this phone is not rung by the hub yet\./;

let folder, hub, service;
// The demo's shop, but that the sweep takes longer than anybody stays: its bell is due as soon as somebody is in.
test.beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sweepbell-pocket-'));
  const shop = (await readFile(join(DEMO, 'shop.toml'), 'utf8')).replace(/floor_minutes = 10/, 'floor_minutes = 150');
  await writeFile(join(folder, 'shop.toml'), shop);
  const members = join(DEMO, 'members.toml');
  hub = await startHub({ shop: join(folder, 'shop.toml'), members, args: ['--push-to-loopback'] });
});
test.afterAll(async () => {
  await hub.dispose();
  await rm(folder, { recursive: true });
});
test.beforeEach(async () => (service = await startPushService()));
test.afterEach(async () => service.stop());

// Joined, and rung by the hub, as Book lets it.
async function armed(browser, subscription, who = 'Noor') {
  const phone = await openPhone(browser, hub);
  await subscribeAt(phone.context, subscription);
  await joined(phone, who);
  await phone.go('Book');
  const line = phone.page.locator('.pocket');
  await expect(line).toContainText(UNASKED);
  await phone.tap('Let the hub ring it');
  await expect(line).toContainText(ARMED);
  return phone;
}

// What a page does whose tab is put away, as far as it can tell.
async function putAway(page) {
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
    Object.defineProperty(document, 'hidden', { value: true, configurable: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
}

test('a touch lets the hub ring this phone, and the bell is shown by the worker', async ({ browser }) => {
  const noor = await armed(browser, service.subscription);
  await noor.go('Door');
  await arrive(noor, 'Forge');
  const line = noor.page.locator('.pocket');
  await expect(line).toContainText(ARMED);
  await expect(line.getByRole('button')).toHaveCount(0);

  // The bell is due at once, and said to this phone alone, sealed.
  await expect.poll(() => service.told.length).toBe(1);
  const told = JSON.parse(service.told[0]);
  expect(told).toMatchObject({ what: 'sweep_bell', late_minutes: 0 });
  expect(Object.keys(told).sort()).toEqual(['at', 'late_minutes', 'tag', 'what']);

  // Seen: shown in the list, without a second noise. The page's own notice of it had the same place.
  await noor.settled();
  const [seen, ...more] = await pushed(noor.page, hub.origin, service.told[0], (shown) => shown.some(({ path }) => path));
  expect(more).toEqual([]);
  expect(seen).toMatchObject({ title: 'Stop. Start sweeping.', silent: true, path: '/sweep' });

  // A touch of it brings the app forward, to the sweep.
  const worker = noor.context.serviceWorkers()[0];
  await worker.evaluate(async () => {
    const [notification] = await self.registration.getNotifications();
    self.dispatchEvent(new NotificationEvent('notificationclick', { notification }));
  });
  await expect(noor.page).toHaveURL(/\/sweep$/);
  expect(await notices(noor.page)).toEqual([]);

  // Closed: no page of the app is open any more, and the worker alone shows it, to be heard.
  await noor.page.goto(service.origin);
  const alone = () =>
    worker.evaluate(async () => {
      const [windows, shown] = await Promise.all([self.clients.matchAll({ type: 'window', includeUncontrolled: true }), self.registration.getNotifications()]);
      return { windows: windows.length, shown: shown.map(({ title, silent }) => ({ title, silent })) };
    });
  expect(await alone()).toEqual({ windows: 0, shown: [] });
  await deliver(noor.page, hub.origin, service.told[0]);
  await expect.poll(alone).toEqual({ windows: 0, shown: [{ title: 'Stop. Start sweeping.', silent: false }] });
  await noor.close();
});

test('a bell that rings while the page is out of sight is shown as a notice by itself', async ({ browser }) => {
  const noor = await openPhone(browser, hub);
  await subscribeAt(noor.context, service.subscription);
  await joined(noor, 'Noor');
  await noor.settled();
  await arrive(noor, 'Forge');
  await putAway(noor.page);
  await expect.poll(async () => (await notices(noor.page)).map(({ title }) => title)).toEqual(['Stop. Start sweeping.']);
  await noor.close();
});

test('a sweep bell that nobody answers rings the phone of somebody near', async ({ browser }) => {
  const ilse = await armed(browser, service.subscription, 'Ilse');
  await ilse.go('Door');
  await arrive(ilse, 'Forge');
  await hearBell(ilse, 'Stop. Start sweeping.', 'Sweeping now');
  // Noor came in almost three minutes ago, by a clock that is behind, and puts the phone away.
  const noor = await openPhone(browser, hub, { behindMs: 172_000 });
  await joined(noor, 'Noor');
  await arrive(noor, 'Forge');
  const help = () => service.told.map((text) => JSON.parse(text)).filter(({ what }) => what === 'not_sweeping');
  await expect.poll(help, { timeout: 20_000 }).toHaveLength(1);
  await ilse.settled();
  const shown = await pushed(ilse.page, hub.origin, JSON.stringify(help()[0]), (all) => all.some(({ path }) => path === '/room'));
  const [{ title, body }] = shown.filter(({ path }) => path === '/room');
  expect(title).toBe('Somebody near you has not begun to sweep.');
  expect(body).not.toContain('Noor');
  await noor.close();
  await ilse.close();
});

test('an address that the browser changed is told anew, and one that is given back is forgotten', async ({ browser }) => {
  const noor = await armed(browser, service.subscription);
  const told = () => noor.page.evaluate(async () => (await (await fetch('/api/push')).json()).endpoint);
  const moved = { ...service.subscription, endpoint: `${service.origin}/moved` };
  await subscribeAt(noor.context, moved);
  await noor.open('/book');
  await expect.poll(told).toBe(moved.endpoint);
  await expect(noor.page.locator('.pocket')).toContainText(ARMED);
  await noor.tap('No longer ring it');
  await expect.poll(told).toBe(null);
  await expect(noor.page.locator('.pocket')).toContainText(UNASKED);
  await noor.close();
});

const IPHONE = 'Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.0 Mobile/15E148 Safari/604.1';
for (const [what, options, script, words] of [
  ['cannot', {}, () => delete globalThis.PushManager, /^This browser cannot be rung while it is closed\./],
  ['can from the home screen alone', { userAgent: IPHONE }, () => delete globalThis.PushManager, /^This browser rings a locked phone only for an app on the home screen\./],
  ['may not', {}, () => Object.defineProperty(Notification, 'permission', { get: () => 'denied' }), /^This phone lets no bells of this page through/],
]) {
  test(`a browser that ${what} says so, and offers no touch`, async ({ browser }) => {
    const noor = await openPhone(browser, hub, options);
    await noor.context.addInitScript(script);
    await joined(noor, 'Noor');
    await noor.go('Book');
    const line = noor.page.locator('.pocket');
    await expect(line).toContainText(words);
    await expect(line.getByRole('button')).toHaveCount(0);
    await noor.close();
  });
}

test('a browser that gives no address, and a hub out of reach, are said', async ({ browser }) => {
  const noor = await openPhone(browser, hub);
  await subscribeAt(noor.context, null);
  await joined(noor, 'Noor');
  await noor.go('Book');
  const line = noor.page.locator('.pocket');
  await noor.tap('Let the hub ring it');
  await expect(line).toContainText(/^The browser gave no address to ring\./);
  await noor.settled();
  await noor.offline();
  await noor.open('/book');
  await expect(line).toContainText(/^Whether the hub rings this phone is known once it is reached again\./);
  await noor.close();
});

test('a try comes a little later, and says that it is one', async ({ browser }) => {
  const noor = await armed(browser, service.subscription);
  await noor.go('Door');
  await arrive(noor, 'Forge');
  await hearBell(noor, 'Stop. Start sweeping.', 'Sweeping now');
  await noor.go('Bench');
  const before = service.told.length;
  await noor.tap('Bells in a pocket');
  await noor.tap('Ring it as a try');
  await noor.hears(/^In 10 seconds the hub rings this phone/);
  await expect.poll(() => service.told.length, { timeout: 20_000 }).toBe(before + 1);
  const told = service.told.at(-1);
  expect(JSON.parse(told)).toMatchObject({ what: 'try', late_minutes: 0 });
  const shown = await pushed(noor.page, hub.origin, told, (all) => all.some(({ title }) => title.startsWith('A try')));
  expect(shown.find(({ title }) => title.startsWith('A try'))).toMatchObject({ title: 'A try: the hub reaches this phone.' });
  await noor.close();
});
