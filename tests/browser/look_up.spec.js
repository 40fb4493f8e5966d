// What is looked up: fire in two touches from every screen, with no network and a dead hub; what a metal may be; where a
// tin may be opened; and how long ears and hands have left at a machine today.

import { readFile, writeFile, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join as path } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from '@playwright/test';
import { arrive, joined, machine, startMachine } from './acts.js';
import { expectFit } from './fit.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';

const DEMO = path(dirname(fileURLToPath(import.meta.url)), '../../hub/demo');

let hub, folder;
test.beforeAll(async () => {
  folder = await mkdtemp(path(tmpdir(), 'sweepbell-noon-'));
  hub = await startHub({ shop: await shopAtNoon(), members: path(DEMO, 'members.toml') });
});
test.afterAll(async () => {
  await hub.dispose();
  await rm(folder, { recursive: true, force: true });
});

// The demo shop where it is about noon now: a day that is counted does not end in the middle of a test.
async function shopAtNoon() {
  const east = 12 - new Date().getUTCHours();
  const zone = `Etc/GMT${east > 0 ? '-' : '+'}${Math.abs(east)}`;
  const shop = path(folder, 'shop.toml');
  await writeFile(shop, (await readFile(path(DEMO, 'shop.toml'), 'utf8')).replace('Europe/Amsterdam', zone));
  return shop;
}

// The line of that name in the sheet in front.
function line(phone, name) {
  return phone.page.locator('dialog li').filter({ has: phone.page.locator('.row-name', { hasText: new RegExp(`^${name}$`) }) });
}

test('fire is two touches away on every screen, without a network', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Forge');
  await phone.settled();
  await phone.offline();
  await hub.kill();
  for (const address of ['/', '/bench', '/sweep', '/room', '/book', '/cautions']) {
    await phone.open(address);
    await expect(phone.place('Room')).toBeVisible();
    phone.taps = 0;
    if (address !== '/room') await phone.go('Room');
    await phone.tap('Fire');
    await expect(phone.page.locator('dialog').getByRole('heading', { name: 'Fire', exact: true })).toBeVisible();
    await phone.hears('Leave. Warn the others. Call.');
    expect(phone.taps, address).toBeLessThanOrEqual(2);
    await phone.tap('Back');
  }
  await phone.tap('Fire');
  // This phone's room comes first: its doors, then its extinguishers.
  await expect(phone.page.locator('dialog h2').first()).toHaveText('Forge: doors');
  await expect(line(phone, 'The yard door, onto the quay')).toContainText('Way out');
  await expect(line(phone, 'The canal door: it opens onto water')).toContainText('Not a way out');
  const metal = line(phone, 'Metal: chips, dust').first();
  await expect(metal).toContainText('By the grinders, yellow band: metal powder, marked D.');
  await expect(metal).not.toContainText('foam, marked');
  await expect(line(phone, 'Wood, paper, rags').first()).not.toContainText('metal powder');
  await expect(phone.page.locator('dialog').getByRole('link', { name: 'Call 112' })).toBeVisible();
  await expectFit(phone, 'fire');
  await phone.close();
  await hub.start();
});

test('a metal is told by magnet, scratch, weight and size, and never better than they tell', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await phone.go('Room');
  await phone.tap('What metal is this?');
  await phone.tap('lets go');
  await expect(line(phone, 'stainless steel')).toContainText('fits');
  await phone.hears('Some stainless steel does not hold a magnet either.');
  await phone.page.getByLabel('Weight in g').fill('270');
  for (const [label, mm] of [['Length', '100'], ['Width', '50'], ['Height', '20']]) {
    await phone.page.getByLabel(`${label} in mm`).fill(mm);
  }
  await expect(line(phone, 'aluminium')).toContainText('the only one here that fits');
  await expect(line(phone, 'aluminium')).toContainText(/Never in: .*Angle grinder, Pedestal grinder/);
  await phone.page.getByLabel('Weight in g').fill('855');
  await expect(line(phone, 'brass')).toContainText('fits');
  await expect(line(phone, 'bronze')).toContainText('fits');
  await phone.hears('Brass and bronze overlap: weight and size cannot part them.');
  await phone.tap('holds');
  await expect(line(phone, 'brass')).toHaveCount(0);
  await expectFit(phone, 'a metal');
  await phone.close();
});

test('a tin goes to the room, to the hood, or home again', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Marit');
  await phone.go('Room');
  await phone.tap('May I open this tin?');
  const [room, hood] = [line(phone, 'Fitting, in the room'), line(phone, 'Paint hood')];
  await expect(room).toContainText('No, not without a number on the tin.');
  for (const [grams, here, there] of [['130', 'Yes, fan on', 'Yes:'], ['130,5', 'No, too much.', 'Yes:'], ['501', 'No, too much.', 'No, too much.']]) {
    await phone.page.getByLabel('VOC on the tin, in g/l').fill(grams);
    await expect(room).toContainText(here);
    await expect(hood).toContainText(there);
  }
  await expect(room).toContainText('Limit 130 g/l: 2004/42/EC');
  await phone.page.getByLabel('VOC on the tin, in g/l').fill('500');
  await expect(hood).toContainText(/Yes:\s*Fan is on and draws/);
  await expect(hood).toContainText('Front is down');
  await expectFit(phone, 'a tin');
  await phone.close();
});

test('the hood has a sign-off of its own', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await phone.go('Room');
  await phone.tap('May I open this tin?');
  await expect(line(phone, 'Paint hood')).toContainText('Not yet: You are not signed off on Paint hood yet.');
  await phone.close();
});

test('the minutes left for ears and hands run down over the whole day', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Bram');
  await arrive(phone, 'Forge');
  const grinder = machine(phone, 'Angle grinder');
  // 97 dB(A): half an hour by NIOSH 98-126, Table 1-1; before that, nothing today.
  await expect(grinder).toContainText('ears: 30 min left');
  await phone.hears(/An estimate from typical levels, without hearing protection, not a measurement/);
  await startMachine(phone, 'Angle grinder');
  await pass([phone], { minutes: 10 });
  await phone.ticks();
  await expect(grinder).toContainText(/ears: (20|19) min left/);
  await phone.tap('Stop: Angle grinder');
  await expect(grinder).not.toContainText('runs,');
  await phone.open('/bench');
  await expect(grinder).toContainText(/ears: (20|19) min left/);
  await phone.tap('Start: Angle grinder');
  await expect(phone.page.locator('dialog')).toContainText(/Your ears have (20|19) min left here today, by an estimate that measures nothing\./);
  await phone.tap('All so. Start');
  await pass([phone], { minutes: 25 });
  await phone.ticks();
  await expect(grinder).toContainText('ears: enough for today');
  await phone.close();
});
