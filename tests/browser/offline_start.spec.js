// After one visit no network is needed: every screen opens from its own address, with the hub dead and the network off.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

const SCREENS = [
  ['/', 'You are in: Fitting'],
  ['/bench', 'Machines'],
  ['/sweep', 'Not sweeping yet'],
  ['/room', 'Room'],
  ['/book', 'Book'],
  ['/cautions', 'What this app cannot do'],
  ['/d/forge?from=poster#j=ABCD-2345', 'You are in: Fitting'],
  ['/no/such/place', 'You are in: Fitting'],
];

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('every screen opens without a network, and with a dead hub', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await arrive(phone, 'Fitting');
  await phone.settled();
  for (const without of [() => phone.offline(), async () => (await phone.offline(false), await hub.kill())]) {
    await without();
    for (const [path, heading] of SCREENS) {
      await phone.open(path);
      await expect(phone.page.getByRole('heading', { name: heading, exact: true })).toBeVisible();
    }
  }
  expect(phone.faults).toEqual([]);
  await phone.close();
  await hub.start();
});

test('a phone that only looked in says so kindly when it is offline', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await phone.open('/');
  await phone.hears('Join the shop');
  await phone.settled();
  await phone.offline();
  await phone.open('/bench');
  await phone.hears('Joining needs the network this once. Check it, then try again.');
  // The network's return is noticed; nothing has to be pressed for it.
  await phone.offline(false);
  await phone.page.getByLabel('Join code').fill(hub.joinCode);
  await phone.tap('Join');
  await phone.hears('Canal Yard. Who are you?');
  await phone.close();
});
