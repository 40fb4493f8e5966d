// A phone that has heard much starts from what followed from it, not from every line; and shows the same as if it had read all.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { keeps, tallyOf } from './long_log.js';
import { openPhone } from './phone.js';
import { hubLines } from './record.js';

// An address of this origin that the app's worker leaves to the hub.
const NO_APP = '/api/openapi.json';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(() => hub.dispose());

test('a long log is folded once, and again where a line went or the storage spoilt it', async ({ browser }) => {
  test.slow();
  const marit = await openPhone(browser, hub);
  await joined(marit, 'Marit');
  const kept = await keeps(marit, hubLines(hub), 3_000);
  await marit.open('/');
  await expect.poll(() => tallyOf(marit), { timeout: 60_000 }).toMatchObject({ standsFor: kept, since: 0 });

  // Read from every line, then from the tally, by a clock that stands still and without a network: nothing else is new to either.
  await marit.offline();
  await marit.context.clock.setFixedTime(await marit.page.evaluate(() => Date.now()));
  await setTally(marit, null);
  const read = await pagesOf(marit);
  await expect.poll(() => tallyOf(marit), { timeout: 60_000 }).not.toBeNull();
  expect(await pagesOf(marit)).toEqual(read);

  // A byte that storage spoilt: nothing is believed of it.
  await setTally(marit, 400);
  expect(await pagesOf(marit)).toEqual(read);

  // What somebody does since is there after the next start, on this phone and on others.
  await marit.offline(false);
  await marit.context.clock.resume();
  const noor = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  await arrive(noor, 'Fitting');
  await marit.open('/');
  await marit.go('Room');
  await marit.hears('Noor');
  await marit.offline();
  await marit.open('/');
  await marit.go('Room');
  await marit.hears('Noor');
  expect((await tallyOf(marit)).since).toBeGreaterThan(0);
  for (const phone of [marit, noor]) await phone.close();
});

test('a database of an earlier version is taken up with its lines', async ({ browser }) => {
  const marit = await openPhone(browser, hub);
  await joined(marit, 'Marit');
  await arrive(marit, 'Fitting');
  await marit.go('Book');
  await marit.hears('Everything is with the hub.');
  await marit.settled();
  await marit.offline();
  expect(await setBack(marit)).toBeGreaterThan(100);
  await marit.open('/');
  await marit.hears('You are in: Fitting');
  await marit.go('Room');
  await marit.hears('Marit');
  await marit.close();
});

// Pages that show what others did, each with something that is there once it is reckoned.
const PAGES = [
  ['/', '.place'],
  ['/room', '.place'],
  ['/book/today', '.needs'],
  ['/book/finds', '.finds'],
  ['/book/rounds', '.round-kept'],
  ['/book/figures', '.sheet-of-figures'],
];

// What is read on each.
async function pagesOf(phone) {
  const read = {};
  for (const [path, there] of PAGES) {
    await phone.open(path);
    await phone.page.locator(there).first().waitFor({ timeout: 30_000 });
    // What is not seen at first is drawn while the page is idle.
    await expect.poll(async () => read[path] === (read[path] = await textOf(phone)), { intervals: [1_000] }).toBe(true);
  }
  return read;
}

// The marks of a rule are as many as there is room for, which is measured after the first picture: they are left out.
async function textOf(phone) {
  return phone.page.locator('main').evaluate((main) => {
    const copy = main.cloneNode(true);
    for (const rule of copy.querySelectorAll('.steel-rule')) rule.remove();
    return copy.textContent;
  });
}

// Does something in the phone's storage while the app is closed; it has no network afterwards.
async function withoutApp(phone, work, argument) {
  await phone.offline(false);
  await phone.open(NO_APP);
  const told = await phone.page.evaluate(work, argument);
  await phone.offline();
  return told;
}

// Takes the phone's tally away, or spoils one byte of it.
async function setTally(phone, spoilt) {
  await withoutApp(phone, async (spoilt) => {
    const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const database = await asked(indexedDB.open('sweepbell'));
    const kv = () => database.transaction('kv', 'readwrite').objectStore('kv');
    const tally = await asked(kv().get('tally'));
    if (spoilt !== null) tally.bytes[spoilt] ^= 1;
    await asked(spoilt === null ? kv().delete('tally') : kv().put(tally, 'tally'));
    database.close();
  }, spoilt);
}

// Makes the database as its first version was, with all that it has; how many lines of others those are.
async function setBack(phone) {
  return withoutApp(phone, async () => {
    const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const database = await asked(indexedDB.open('sweepbell'));
    const kept = {};
    for (const name of database.objectStoreNames) {
      const store = database.transaction(name).objectStore(name);
      const [keys, values] = await Promise.all([asked(store.getAllKeys()), asked(store.getAll())]);
      kept[name] = { keys, values };
    }
    database.close();
    await asked(indexedDB.deleteDatabase('sweepbell'));
    const opening = indexedDB.open('sweepbell', 1);
    const first = { log: 'seq', others: 'id', aside: 'id', photos: null, kv: null };
    opening.onupgradeneeded = () => {
      for (const [name, keyPath] of Object.entries(first)) opening.result.createObjectStore(name, keyPath ? { keyPath } : undefined);
    };
    const old = await asked(opening);
    kept.others.values.push(...kept.fresh.values);
    for (const [name, keyPath] of Object.entries(first)) {
      const store = old.transaction(name, 'readwrite').objectStore(name);
      kept[name].values.forEach((value, at) => (keyPath ? store.put(value) : store.put(value, kept[name].keys[at])));
      await new Promise((done) => (store.transaction.oncomplete = done));
    }
    old.close();
    return kept.others.values.length;
  });
}
