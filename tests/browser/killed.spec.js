// A browser that is killed outright, as a phone does when its battery dies: nothing that the screen had confirmed is
// lost, and the log still goes to the hub with every signature and chain in order.
//
// It shows what survives the death of the process; a power cut in the storage itself cannot be shown here.

import { readFile, readdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { chromium, expect, test } from '@playwright/test';
import { arrive, joined, machine, startMachine, startSweep, tickNext } from './acts.js';
import { CHROMIUM, CHROMIUM_FLAGS } from './chromium.js';
import { startHub } from './hub.js';
import { PHONE, takePhone } from './phone.js';
import { hubLines, phoneLines, verified } from './record.js';

let hub, folder;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.beforeEach(async () => (folder = await mkdtemp(path(tmpdir(), 'sweepbell-killed-'))));
test.afterEach(async () => rm(folder, { recursive: true, force: true, maxRetries: 5 }));

async function switchOn() {
  const context = await chromium.launchPersistentContext(folder, { ...PHONE, executablePath: CHROMIUM, args: CHROMIUM_FLAGS });
  return takePhone(context, hub);
}

// Kills the browser of this folder, and only that one.
async function kill(phone) {
  const gone = new Promise((done) => phone.context.once('close', done));
  process.kill(await browserProcess(), 'SIGKILL');
  await gone;
}

async function browserProcess() {
  for (const id of (await readdir('/proc')).filter((name) => /^\d+$/.test(name))) {
    const words = (await readFile(`/proc/${id}/cmdline`, 'utf8').catch(() => '')).split('\0');
    if (words.includes(`--user-data-dir=${folder}`) && !words.some((word) => word.startsWith('--type='))) return Number(id);
  }
  throw new Error(`no browser runs in ${folder}`);
}

test('killed right after an act was confirmed', async () => {
  let phone = await switchOn();
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await startMachine(phone, 'Pillar drill');
  await kill(phone);

  phone = await switchOn();
  await phone.open('/bench');
  await expect(machine(phone, 'Pillar drill')).toContainText('runs,');
  await phone.tap('Stop: Pillar drill');
  await expect(machine(phone, 'Pillar drill')).not.toContainText('runs,');
  await allIsWithTheHub(phone);
  await phone.close();
});

test('killed in the middle of writing', async () => {
  let phone = await switchOn();
  await joined(phone, 'Ilse');
  await arrive(phone, 'Fitting');
  await phone.settled();
  await phone.offline();
  await startSweep(phone);
  await tickNext(phone);
  const confirmed = (await phoneLines(phone)).map(({ jws }) => jws);
  // More is asked of the storage than it can have finished, and nobody waits for it.
  await phone.page.evaluate(() => {
    for (const row of document.querySelectorAll('.chore-row')) row.click();
  });
  await kill(phone);

  phone = await switchOn();
  await phone.open('/sweep');
  await expect(phone.page.getByRole('heading', { name: 'Sweep, Fitting' })).toBeVisible();
  const kept = (await phoneLines(phone)).map(({ jws }) => jws);
  expect(kept.slice(0, confirmed.length)).toEqual(confirmed);
  await allIsWithTheHub(phone);
  await phone.close();
});

async function allIsWithTheHub(phone) {
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  const lines = hubLines(hub);
  expect(lines).toEqual(expect.arrayContaining((await phoneLines(phone)).map(({ jws }) => jws)));
  expect(await verified(hub, lines)).toMatchObject({ ok: true, problems: [] });
}
