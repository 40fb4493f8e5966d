// The service worker, in a real browser: whole builds, kept; never an answer for the hub; never a takeover unasked.
//
// What the browser itself would set off (a push, a network that returns) is set off by its debugger.

import { expect, test } from '@playwright/test';
import { BLANK, startSite } from './site.js';

let site;
test.beforeEach(async () => (site = await startSite()));
test.afterEach(async () => site.stop());

// A page of the site without the app, which would sync and register by itself while a test looks on.
async function blank(page) {
  await page.goto(site.origin + BLANK);
}

async function register(page) {
  await blank(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.register('/sw.js');
    await navigator.serviceWorker.ready;
  });
  await expect.poll(() => page.evaluate(() => Boolean(navigator.serviceWorker.controller))).toBe(true);
}

async function precached(page) {
  return page.evaluate(async () => {
    const names = await caches.keys();
    const kept = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => new URL(url).pathname)));
    return Object.fromEntries(names.map((name, at) => [name, kept[at]]));
  });
}

// Lets the debugger speak to the worker as the browser would.
async function debuggerOf(page) {
  const session = await page.context().newCDPSession(page);
  const found = new Promise((done) =>
    session.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => registrations[0] && done(registrations[0].registrationId)),
  );
  await session.send('ServiceWorker.enable');
  return { session, registrationId: await found };
}

async function putLog(page, records) {
  await page.evaluate(async (lines) => {
    const database = await new Promise((done, fail) => {
      const asked = indexedDB.open('sweepbell', 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore('log', { keyPath: 'seq' });
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
    const writing = database.transaction('log', 'readwrite');
    for (const line of lines) writing.objectStore('log').put(line);
    await new Promise((done) => (writing.oncomplete = done));
    database.close();
  }, records);
}

test('one visit keeps the whole build, and every address works without a network', async ({ page, context }) => {
  await register(page);
  const caches = Object.entries(await precached(page));
  expect(caches).toHaveLength(1);
  const [[, kept]] = caches;
  expect(kept).toContain('/index.html');
  expect(kept.some((path) => path.endsWith('.wasm'))).toBe(true);
  expect(kept).not.toContain('/sw.js');

  await site.stop();
  await context.setOffline(true);
  const errors = [];
  page.on('requestfailed', (request) => errors.push(new URL(request.url()).pathname));
  const answer = await page.goto(`${site.origin}/d/forge?x=1#j=ABCD-2345`);
  expect(answer.fromServiceWorker()).toBe(true);
  // The posted address is handed on and left: no join code stays in the address.
  await expect.poll(() => new URL(page.url()).pathname + new URL(page.url()).hash).toBe('/');
  await expect(page.locator('#start-failed')).toBeHidden();
  expect(errors.filter((path) => !path.startsWith('/api/'))).toEqual([]);
  site = await startSite();
});

test('the hub is always asked itself, and nothing but reading is answered from the phone', async ({ page }) => {
  await register(page);
  site.asked = [];
  const statuses = await page.evaluate(async () => {
    const get = await fetch('/api/shop');
    const post = await fetch('/index.html', { method: 'POST' });
    return [get.status, post.status];
  });
  expect(statuses).toEqual([404, 200]);
  expect(site.asked).toEqual(['/api/shop', '/index.html']);
});

test('a newer build waits until it is told to take over, then the older one goes', async ({ page }) => {
  await register(page);
  const [older] = Object.keys(await precached(page));
  site.build = 'feedfacefeedface';
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    await registration.update();
  });
  const state = () => page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).waiting?.state ?? null);
  await expect.poll(state).toBe('installed');
  expect(Object.keys(await precached(page)).sort()).toEqual([older, 'build-feedfacefeedface'].sort());

  // Words that mean nothing to it change nothing.
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).waiting.postMessage('now'));
  // That nothing happens takes a moment to see.
  await page.waitForTimeout(500);
  expect(await state()).toBe('installed');

  await page.evaluate(async () => {
    const changed = new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done));
    (await navigator.serviceWorker.getRegistration()).waiting.postMessage('take_over');
    await changed;
  });
  await expect.poll(async () => Object.keys(await precached(page))).toEqual(['build-feedfacefeedface']);
});

test('a build of which one file is missing is not taken at all', async ({ page }) => {
  await register(page);
  const [older] = Object.keys(await precached(page));
  site.build = 'feedfacefeedface';
  site.missing = /\.wasm$/;
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const gone = new Promise((done) =>
      registration.addEventListener('updatefound', () =>
        registration.installing.addEventListener('statechange', (event) => event.target.state === 'redundant' && done()),
      ),
    );
    registration.update().catch(() => {});
    await gone;
  });
  const active = await page.evaluate(async () => (await (await fetch('/index.html')).text()).match(/name="build" content="([0-9a-f]+)"/)[1]);
  expect(`build-${active}`).toBe(older);
});

for (const [what, data, title, body] of [
  ['a told notice', JSON.stringify({ title: 'Sweep bell', body: 'Start now.', tag: 'bell' }), 'Sweep bell', 'Start now.'],
  ['no notice at all', '', 'Sweepbell', ''],
  ['what is no JSON', 'boo', 'Sweepbell', ''],
  ['JSON of another shape', '[1,2]', 'Sweepbell', ''],
]) {
  test(`a push with ${what} shows something`, async ({ page, context }) => {
    await context.grantPermissions(['notifications'], { origin: site.origin });
    await register(page);
    const { session, registrationId } = await debuggerOf(page);
    const shown = () =>
      page.evaluate(async () => (await (await navigator.serviceWorker.ready).getNotifications()).map(({ title, body }) => ({ title, body })));
    // A worker that is still starting can miss what the debugger delivers, so it is delivered until it is shown.
    await expect(async () => {
      await session.send('ServiceWorker.deliverPushMessage', { origin: site.origin, registrationId, data });
      await expect.poll(shown, { timeout: 1_000 }).not.toEqual([]);
    }).toPass();
    for (const notice of await shown()) expect(notice).toEqual({ title, body });
  });
}

test('a background sync is left to an open app', async ({ page }) => {
  await register(page);
  await putLog(page, [{ seq: 1, jws: 'a', state: 'waiting' }]);
  await page.evaluate(() => {
    globalThis.heard = [];
    navigator.serviceWorker.addEventListener('message', ({ data }) => globalThis.heard.push(data));
  });
  const { session, registrationId } = await debuggerOf(page);
  // What the debugger sends to a worker that is still starting can be lost; the browser's own is sent until it is taken.
  await expect(async () => {
    await session.send('ServiceWorker.dispatchSyncEvent', { origin: site.origin, registrationId, tag: 'log', lastChance: false });
    expect(await page.evaluate(() => globalThis.heard)).toContain('sync');
  }).toPass({ timeout: 15_000 });
  expect(site.synced).toEqual([]);
});

test('with no app open, waiting entries are sent in order, in questions that the hub takes', async ({ page }) => {
  await register(page);
  const lines = Array.from({ length: 450 }, (_, at) => ({ seq: at + 1, jws: `line-${at + 1}`, state: at < 30 ? 'acked' : 'waiting' }));
  await putLog(page, lines);
  const { session, registrationId } = await debuggerOf(page);
  // The page leaves the site; the worker stays.
  await page.goto('about:blank');
  await session.send('ServiceWorker.enable');
  await session.send('ServiceWorker.dispatchSyncEvent', { origin: site.origin, registrationId, tag: 'log', lastChance: false });
  await expect.poll(() => site.synced.length).toBe(3);
  expect(site.synced.map(({ push }) => push.length)).toEqual([200, 200, 20]);
  expect(site.synced.flatMap(({ push }) => push)).toEqual(lines.slice(30).map(({ jws }) => jws));
  for (const { push, ...rest } of site.synced) expect(rest).toEqual({ protocol: 1, lost: [], since: 0 });
});

test('a sync before the app has ever run makes no database', async ({ page, context }) => {
  await register(page);
  const { session, registrationId } = await debuggerOf(page);
  await page.goto('about:blank');
  await session.send('ServiceWorker.dispatchSyncEvent', { origin: site.origin, registrationId, tag: 'log', lastChance: false });
  // That nothing happens takes a moment to see.
  await page.waitForTimeout(500);
  // Any page of the site would be the app by now; the worker is asked itself.
  const [worker] = context.serviceWorkers();
  expect(await worker.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name))).toEqual([]);
  expect(site.synced).toEqual([]);
});
