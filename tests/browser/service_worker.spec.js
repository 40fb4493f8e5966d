// The service worker, in a real browser: whole builds, kept; never an answer for the hub; never a takeover unasked.
//
// What the browser itself would set off (a push, a network that returns) is set off by its debugger.

import { expect, test } from '@playwright/test';
import { debuggerOf, pushed } from './pushes.js';
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

const SWEEP = 'Switch off, let it run down, then the chores stand ready in their order.';
const UNKNOWN = ['Something is due.', 'Open Sweepbell: it says what.', 'bell', '/'];
// Each call in one language or another: what is shown, what takes its place, and what a touch of it opens.
for (const [what, data, language, title, body, tag, path] of [
  ['a bell', { what: 'sweep_bell', late_minutes: 0, tag: 'x' }, '', 'Stop. Start sweeping.', SWEEP, 'bell', '/sweep'],
  ['a late bell', { what: 'sweep_bell', late_minutes: 1 }, 'en', 'Stop. Start sweeping.', `${SWEEP} That was due 1 minute ago.`, 'bell', '/sweep'],
  ['a call to a buddy', { what: 'not_sweeping', late_minutes: 0, tag: 'abc' }, 'es', 'Alguien cerca de ti no ha empezado a barrer.', /^Ve a verlo/, 'abc', '/room'],
  ['a call to a steward', { what: 'not_out', late_minutes: 7, tag: 'abc' }, 'nl', 'Iemand heeft op de laatste bel niet geantwoord.', /Dat was 7 minuten geleden aan de beurt\.$/, 'abc', '/room'],
  ['another language than is spoken', { what: 'watch_over' }, 'en-x-pseudo', 'The fire watch is over.', /^Look once more/, 'bell', '/sweep'],
  ["a newer hub's call", { what: 'tea', late_minutes: 0 }, '', ...UNKNOWN],
  ['a name that every object has', { what: 'toString' }, '', ...UNKNOWN],
  ['nothing at all', '', '', ...UNKNOWN],
  ['what is no JSON', 'boo', '', ...UNKNOWN],
  ['JSON of another shape', '[1,2]', '', ...UNKNOWN],
]) {
  test(`a push with ${what} shows something`, async ({ page, context }) => {
    await context.grantPermissions(['notifications'], { origin: site.origin });
    await register(page);
    await page.evaluate((chosen) => chosen && caches.open('phone').then((left) => left.put('/language', new Response(chosen))), language);
    const shown = await pushed(page, site.origin, data);
    for (const notice of shown) {
      expect(notice).toMatchObject({ title, tag, path, silent: true, requireInteraction: true });
      expect(notice.body).toMatch(body);
    }
  });
}

test('an address that the push service changed is told to the hub', async ({ page, context }) => {
  await register(page);
  const subscription = { endpoint: 'https://push.example/new', keys: { p256dh: 'a', auth: 'b' } };
  // The browser's own event cannot be set off; this one differs in that nobody waits for its end.
  await context.serviceWorkers()[0].evaluate((newSubscription) => {
    self.dispatchEvent(Object.assign(new ExtendableEvent('pushsubscriptionchange'), { newSubscription }));
  }, subscription);
  await expect.poll(() => site.subscribed).toEqual([{ subscription }]);
});

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
