// A hub that is not the one the phone knows, or speaks a language that the phone does not: said in words, and the
// phone goes on by itself with everything it has.

import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { arrive, heardAll, joined, machine, startMachine } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { hubLines, phoneLines, verified } from './record.js';

let hub;
test.beforeEach(async () => (hub = await startHub()));
test.afterEach(async () => hub.dispose());

test('a hub that has lost its data does not know the phone: nothing is lost, and joining again brings it all back', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  const before = await phoneLines(phone);

  const folder = await mkdtemp(path(tmpdir(), 'sweepbell-other-'));
  await hub.moveTo(folder);
  await phone.tap('Send now');
  await phone.hears('The hub does not know this phone. Ask a steward for a code.');
  await phone.go('Bench');
  await startMachine(phone, 'Pillar drill');

  await phone.open(`/join#${hub.joinCode}`);
  await phone.tap('Noor');
  await phone.go('Bench');
  await expect(machine(phone, 'Pillar drill')).toContainText('runs,');
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  const lines = hubLines(hub);
  expect((await phoneLines(phone)).map(({ jws }) => jws).slice(0, before.length)).toEqual(before.map(({ jws }) => jws));
  expect(lines).toEqual(expect.arrayContaining((await phoneLines(phone)).map(({ jws }) => jws)));
  expect(await verified(hub, lines)).toMatchObject({ ok: true, problems: [] });
  await phone.close();
  await hub.stop();
  await rm(folder, { recursive: true, force: true });
});

test('a phone that may not change its member is told so, and stays who it was', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await phone.open(`/join#${hub.joinCode}`);
  await phone.tap('Ilse');
  await phone.hears('This device speaks for another member already. Clear its data to join it anew.');
  await phone.tap('Back');
  await phone.go('Book');
  await phone.hears('Signs for Noor at Canal Yard.');
  await phone.close();
});

test('until the whole log was heard, a steward is told that what stands there may change', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await phone.page.route('**/api/sync', (route) => route.abort());
  await joined(phone, 'Marit');
  for (const page of ['today', 'figures', 'finds', 'repairs']) {
    await phone.open(`/book/${page}`);
    await phone.hears('This phone has not heard the whole log yet.');
  }
  await phone.open('/book/print');
  await phone.hears(/One card for each place/);
  await phone.hearsNot('This phone has not heard the whole log yet.');
  await phone.page.unroute('**/api/sync');
  await phone.go('Book');
  await phone.tap('Send now');
  await heardAll(phone);
  await phone.open('/book/today');
  await phone.hears('Who is in');
  await phone.hearsNot('This phone has not heard the whole log yet.');
  await phone.close();
});

test('a hub of another time is not misunderstood', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await heardAll(phone);
  // The phone's question as an app of long ago would put it; the answer is the hub's own.
  await phone.page.route('**/api/sync', async (route) => {
    const { 'content-encoding': encoding, ...headers } = route.request().headers();
    const sent = route.request().postDataBuffer();
    const body = encoding === 'gzip' ? gunzipSync(sent) : sent;
    await route.continue({ headers, postData: JSON.stringify({ ...JSON.parse(body), protocol: 0 }) });
  });
  await arrive(phone, 'Fitting');
  await phone.go('Book');
  await phone.hears('The hub is newer than this app. Reload while you are not in a session.');
  await phone.hears(/\d+ lines wait on this phone\./);
  await phone.page.unroute('**/api/sync');
  await phone.tap('Send now');
  await phone.hears('Everything is with the hub.');
  await phone.close();
});
