// A line of the phone's log that was damaged in storage: kept aside, said, and the rest goes on, here and at the hub.

import { expect, test } from '@playwright/test';
import { arrive, joined, startMachine } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { hubLines, phoneLines } from './record.js';
import { asideOf, damage } from './spoiling.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('a damaged line is kept aside and the rest goes on', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  await phone.settled();
  await phone.offline();
  await phone.go('Bench');
  await startMachine(phone, 'Pillar drill');
  const before = await phoneLines(phone);
  const damaged = before.at(-1);
  await damage(phone, damaged.seq);

  await phone.page.reload();
  await phone.hears('1 line could not be read again.');
  await phone.hears('They lie aside untouched; the rest of the log goes on. Tell the steward.');
  await phone.go('Bench');
  await startMachine(phone, 'Pedal shear');
  await phone.offline(false);
  await phone.go('Book');
  await phone.hears('1 line could not be read again.');
  await phone.hears('Everything is with the hub.');

  const kept = (await phoneLines(phone)).map(({ jws }) => jws);
  expect(kept).toHaveLength(before.length);
  const atHub = hubLines(hub);
  expect(atHub).toEqual(expect.arrayContaining(kept));
  expect(atHub).not.toContain(damaged.jws);
  expect(await asideOf(phone)).toHaveLength(1);
  await phone.close();
});
