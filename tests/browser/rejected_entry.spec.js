// Entries that the hub will not count: kept on the phone and shown with the reason, never dropped.
//
// A phone that was put back from a copy of itself writes a second story under the same key; the hub has the first.

import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { chromium, expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { CHROMIUM, CHROMIUM_FLAGS } from './chromium.js';
import { startHub } from './hub.js';
import { PHONE, takePhone } from './phone.js';
import { hubLines, phoneLines, said, verified } from './record.js';

let hub, folder;
test.beforeAll(async () => {
  hub = await startHub();
  folder = await mkdtemp(path(tmpdir(), 'sweepbell-copy-'));
});
test.afterAll(async () => {
  await hub.dispose();
  await rm(folder, { recursive: true, force: true, maxRetries: 5 });
});

async function switchOn(name) {
  const context = await chromium.launchPersistentContext(path(folder, name), { ...PHONE, executablePath: CHROMIUM, args: CHROMIUM_FLAGS });
  return takePhone(context, hub);
}

test('what the hub refuses stays in the Book with the reason', async () => {
  let phone = await switchOn('phone');
  await joined(phone, 'Noor');
  await phone.close();
  await cp(path(folder, 'phone'), path(folder, 'copy'), { recursive: true });

  phone = await switchOn('phone');
  await phone.open('/');
  await arrive(phone, 'Fitting');
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  const first = await phoneLines(phone);
  await phone.close();

  const copy = await switchOn('copy');
  // Its story begins before it can hear the other one.
  await copy.page.route('**/api/**', (route) => route.abort());
  await copy.open('/');
  await arrive(copy, 'Forge');
  const second = await phoneLines(copy);
  await copy.page.unroute('**/api/**');
  await copy.go('Book');
  await copy.tap('Send now');
  await copy.hears(`The hub would not take ${second.length} lines.`);
  await copy.hears('They are kept here with the reason. Show them to the steward.');
  await expect(copy.page.getByText(/not taken: The shop already has a different entry in this place\./)).toHaveCount(second.length);
  await copy.hears('The hub tells another story of this phone than the phone itself.');

  await copy.page.reload();
  await copy.hears(`The hub would not take ${second.length} lines.`);
  expect((await phoneLines(copy)).map(({ jws }) => jws)).toEqual(second.map(({ jws }) => jws));
  const lines = hubLines(hub);
  expect(lines).toEqual(expect.arrayContaining(first.map(({ jws }) => jws)));
  expect(lines.map(said).filter(({ session }) => session === said(second[0].jws).session)).toEqual([]);
  expect(await verified(hub, lines)).toMatchObject({ ok: true, problems: [] });
  await copy.close();
});
