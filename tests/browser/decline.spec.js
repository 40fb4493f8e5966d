// Declining a statement: one tap, a kind word, and no trace anywhere.

import { expect, test } from '@playwright/test';
import { heardAll, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { hubLines, phoneLines } from './record.js';

const KIND_WORDS = [
  'Ties and hooks are by the door. Take your time, then come in.',
  'Spare glasses hang by the door. Put a pair on and come back.',
  'Then this is an evening for drawing and planning. The machines will be here tomorrow.',
];

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('whoever declines, at whichever statement, is written down nowhere', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  // What a first exchange keeps is kept.
  await heardAll(phone);
  const [before, kept] = [hubLines(hub), await everythingKept(phone)];
  for (const [at, words] of KIND_WORDS.entries()) {
    await phone.tap(/^Forge/);
    for (let step = 1; step <= at; step++) {
      await phone.hears(`${step} of 3`);
      await phone.tap('Yes, it is so');
    }
    await phone.hears(`${at + 1} of 3`);
    await phone.tap('Not now');
    await phone.hears(words);
    await phone.tap('Got it');
    await phone.hears('At the door');
  }
  await phone.go('Book');
  await phone.tap('Send now');
  await phone.hears('Everything is with the hub.');
  expect(await phoneLines(phone)).toEqual([]);
  expect(await everythingKept(phone)).toEqual(kept);
  expect(hubLines(hub)).toEqual(before);
  await phone.close();
});

// All that the phone holds in its small store, by key; and the keys of its database that are not the sync's own.
async function everythingKept(phone) {
  return phone.page.evaluate(async () => {
    const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const database = await asked(indexedDB.open('sweepbell'));
    const keys = {};
    for (const name of database.objectStoreNames) {
      if (name !== 'others' && name !== 'fresh') keys[name] = (await asked(database.transaction(name).objectStore(name).getAllKeys())).map(String);
    }
    database.close();
    return { keys: { ...keys, kv: keys.kv.filter((key) => key !== 'sync' && key !== 'ballast') }, small: { ...localStorage } };
  });
}
