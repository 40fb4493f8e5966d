// A new version of the app: it stands ready and waits while a session runs, through reloads too; it takes over when the
// session is over and the member says so, and everything is still there.

import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { expect, test } from '@playwright/test';
import { arrive, joined, machine, startMachine, startSweep } from './acts.js';
import { DIST, startHub } from './hub.js';
import { openPhone } from './phone.js';
import { phoneLines } from './record.js';

const NEXT_BUILD = 'feedfacefeedface';

let hub, dist;
test.beforeAll(async () => {
  dist = await mkdtemp(path(tmpdir(), 'sweepbell-dist-'));
  await cp(DIST, dist, { recursive: true });
  hub = await startHub({ dist });
});
test.afterAll(async () => {
  await hub.dispose();
  await rm(dist, { recursive: true, force: true });
});

// The name of a build is in the worker and in the page, and in no other file.
async function installNextBuild() {
  for (const file of ['sw.js', 'index.html']) {
    for (const packed of ['.br', '.gz']) await rm(path(dist, file + packed), { force: true });
    const text = await readFile(path(dist, file), 'utf8');
    await writeFile(path(dist, file), text.replaceAll(/(BUILD = '|name="build" content=")[0-9a-f]+/g, `$1${NEXT_BUILD}`));
  }
  await hub.restart();
}

test('a new version waits for the end of the session', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  const build = () => phone.page.locator('meta[name=build]').getAttribute('content');
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await startMachine(phone, 'Pillar drill');
  await phone.settled();
  const before = await build();

  await installNextBuild();
  await phone.open('/book');
  await phone.hears('A new version stands ready.');
  await phone.hears('It waits until no session is open.');
  await expect(phone.button('Change to it now')).toBeHidden();
  await phone.page.reload();
  await phone.hears('A new version stands ready.');
  expect(await build()).toBe(before);
  await phone.go('Bench');
  await expect(machine(phone, 'Pillar drill')).toContainText('runs,');

  await startSweep(phone);
  await phone.tap('Leave');
  await phone.tap('Leave the room');
  await phone.hears('At the door');
  const lines = await phoneLines(phone);
  await phone.go('Book');
  await phone.tap('Change to it now');
  await expect.poll(build).toBe(NEXT_BUILD);
  await phone.hears('Signs for Noor at Canal Yard.');
  expect((await phoneLines(phone)).map(({ jws }) => jws)).toEqual(lines.map(({ jws }) => jws));
  await phone.close();
});
