// A phone whose storage is full: what could not be saved is not shown as done, the message says so, the session goes on.

import { expect, test } from '@playwright/test';
import { arrive, joined, machine, startMachine } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { phoneLines } from './record.js';

// From now on the database gives up a transaction that adds a line, as a full phone's does: not at the request, but by
// aborting with the quota's error. (Chromium's own override of the quota does not reach IndexedDB.)
function fill() {
  const { add, put } = IDBObjectStore.prototype;
  const full = new DOMException('full', 'QuotaExceededError');
  const given = new WeakSet();
  IDBObjectStore.prototype.add = function () {
    Object.defineProperty(this.transaction, 'error', { get: () => full });
    given.add(this.transaction);
    this.transaction.abort();
  };
  IDBObjectStore.prototype.put = function (...words) {
    return given.has(this.transaction) ? undefined : put.apply(this, words);
  };
  self.empty = () => Object.assign(IDBObjectStore.prototype, { add, put });
}

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('full storage is said, nothing is lost, and it goes on once there is room', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await phone.settled();
  const before = await phoneLines(phone);
  await phone.page.evaluate(fill);

  await phone.tap('Start: Pillar drill');
  await phone.tap('All so. Start');
  await phone.hears("The phone's storage is full, so this was not saved.");
  await phone.hears('What was saved is safe and your session goes on. Free some space, then press again.');
  await expect(machine(phone, 'Pillar drill')).not.toContainText('runs,');
  expect((await phoneLines(phone)).map(({ jws }) => jws)).toEqual(before.map(({ jws }) => jws));

  await phone.page.evaluate(() => self.empty());
  await phone.tap('Got it');
  await startMachine(phone, 'Pillar drill');
  expect(await phoneLines(phone)).toHaveLength(before.length + 1);
  await phone.close();
});
