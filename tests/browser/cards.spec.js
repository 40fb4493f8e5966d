// Who may join, and with which phone: a steward's phone makes one-time codes, a lost phone is replaced, and what it had not
// sent is not lost.

import { expect, test } from '@playwright/test';
import { arrive, codeFor, joined, lookAt } from './acts.js';
import { readByZbar, shownCode } from './codes.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

// A shop of one's own: nobody joins there without a code that was made for them.
let hub;
test.beforeEach(async () => (hub = await startHub({ shop: 'hub/demo/shop.toml', members: 'hub/demo/members.toml' })));
test.afterEach(async () => hub.dispose());
test.describe.configure({ timeout: 120_000 });

// Marit looks after the shop; her phone shows codes and phones.
async function steward(browser) {
  const marit = await openPhone(browser, hub);
  await joined(marit, 'Marit');
  await marit.go('Book');
  await marit.hears('You look after this shop.');
  await marit.hears('Your card is good for 60 more days.');
  return marit;
}

// The address in the code that is on the steward's screen, as another program's reader sees it.
async function scanned(marit, name) {
  await marit.hears(`For ${name}: to be scanned, or typed`);
  const [address] = readByZbar(await shownCode(marit));
  const typed = new URL(address).hash.slice(1);
  expect(typed).toMatch(/^[2-9A-HJ-NP-Z]{5}-[2-9A-HJ-NP-Z]{5}$/);
  await marit.hears(typed);
  return { path: address.slice(hub.origin.length), typed };
}

const lateLines = () => hub.steward('devices', 'list').reduce((sum, phone) => sum + phone.late, 0);

test('a code is for one member and works once; another is taken back', async ({ browser }) => {
  const marit = await steward(browser);
  await codeFor(marit, 'Ilse');
  const { path, typed } = await scanned(marit, 'Ilse');

  const ilse = await openPhone(browser, hub);
  await ilse.open(path);
  await ilse.hears('Canal Yard. Are you Ilse?');
  await expect(ilse.button('Join as Noor')).toHaveCount(0);
  await ilse.tap('Join as Ilse');
  await ilse.hears('At the door');
  await ilse.go('Book');
  await ilse.hears('Signs for Ilse at Canal Yard.');
  await lookAt(ilse, 'Bram');
  await expect(ilse.button('Look up codes and phones')).toHaveCount(0);

  const other = await openPhone(browser, hub);
  await other.open('/');
  const tryCode = async (code) => {
    await other.page.getByLabel('Join code').fill(code);
    await other.tap('Join');
  };
  await tryCode(typed);
  await other.hears('This code was used already, and works once.');
  await other.hears('Ask a steward for a new one. If it was not you who used it, say so.');

  await codeFor(marit, 'Bram');
  const bram = await scanned(marit, 'Bram');
  await marit.tap('Take it back');
  await expect(marit.button('Take it back')).toHaveCount(0);
  await tryCode(bram.typed);
  await other.hears('This code ran out or was taken back.');
  for (const phone of [marit, ilse, other]) await phone.close();
});

test('a lost phone is replaced; found again it says what happened, and hands in what it had not sent', async ({ browser }) => {
  const marit = await steward(browser);
  await codeFor(marit, 'Ilse');
  const lost = await openPhone(browser, hub);
  await lost.open((await scanned(marit, 'Ilse')).path);
  await lost.tap('Join as Ilse');
  await lost.hears('At the door');
  await lost.settled();
  await lost.offline();
  await arrive(lost, 'Fitting');

  await marit.tap('Look up codes and phones');
  await marit.tap('Code in its place');
  const next = await openPhone(browser, hub);
  await next.open((await scanned(marit, 'Ilse')).path);
  await next.hears('The phone that it replaces is taken off as soon as this one has joined.');
  await next.tap('Join as Ilse');
  await next.hears('At the door');

  await lost.offline(false);
  await lost.go('Book');
  await lost.tap('Send now');
  await lost.hears("This phone was taken off the shop's list.");
  await lost.hears(/\d+ lines that it has not sent are safe here\./);
  const file = await lost.page.getByRole('link', { name: 'Keep it as a file' }).getAttribute('href');
  expect(file.split(',')[1].split('%0A').length).toBeGreaterThan(3);
  expect(lateLines()).toBe(0);
  await lost.tap('Hand it in');
  await lost.hears('The hub has it. A steward decides whether it counts.');
  expect(lateLines()).toBe(file.split(',')[1].split('%0A').length);
  // Leaving is never blocked.
  await lost.go('Bench');
  await expect(lost.place('Room')).toBeVisible();
  for (const phone of [marit, lost, next]) await phone.close();
});

test('a phone is taken off by two touches, not by one', async ({ browser }) => {
  const marit = await steward(browser);
  await codeFor(marit, 'Saar');
  const saar = await openPhone(browser, hub);
  await saar.open((await scanned(marit, 'Saar')).path);
  await saar.tap('Join as Saar');
  await saar.hears('At the door');
  await marit.tap('Look up codes and phones');
  const row = marit.page.locator('li').filter({ hasText: 'A phone of Saar' });
  const act = row.getByRole('button', { name: /take it off$/i });
  await act.tap();
  await expect(act).toHaveText('For good: take it off');
  await expect(row).not.toContainText('taken off');
  await act.tap();
  await expect(row).toContainText('taken off');
  await saar.go('Book');
  await saar.tap('Send now');
  await saar.hears("This phone was taken off the shop's list.");
  for (const phone of [marit, saar]) await phone.close();
});
