// The steward's Book: a member tags a machine out and the steward sees it; a second person gives it back; a mess is traced,
// asked about and settled; an incident is told, followed up and seen to.

import { expect, test } from '@playwright/test';
import { arrive, bookPage, inSheet, joined, rowOf, sayMore, startMachine } from './acts.js';
import { expectFit } from './fit.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';
import { hubLines, said } from './record.js';

const FOLDER = process.env.PICTURES_OF_BOOK ?? 'results/pictures';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

async function shoot(phone, name) {
  for (const [theme, size, suffix] of [['dark', { width: 390, height: 844 }, ''], ['light', { width: 390, height: 844 }, '-light'], ['light', { width: 844, height: 390 }, '-lying'], ['dark', { width: 1280, height: 800 }, '-laptop']]) {
    await phone.page.setViewportSize(size);
    await phone.page.emulateMedia({ colorScheme: theme });
    await phone.page.screenshot({ path: `${FOLDER}/book-${name}${suffix}.png`, fullPage: false });
  }
  await phone.page.setViewportSize({ width: 390, height: 844 });
  await phone.page.emulateMedia({ colorScheme: 'dark' });
}

test('tagged out by one, mended by another, given back by a third', async ({ browser }) => {
  const bram = await openPhone(browser, hub);
  const ilse = await openPhone(browser, hub);
  const marit = await openPhone(browser, hub);
  await joined(bram, 'Bram');
  await joined(ilse, 'Ilse');
  await joined(marit, 'Marit');

  await test.step('anybody tags out, without a session', async () => {
    await bram.go('Room');
    await bram.tap('Tag a machine out');
    await inSheet(bram, 'Long bed lathe');
    await bram.page.locator('dialog textarea').fill('The chuck key guard is bent');
    await inSheet(bram, 'Tag out: Long bed lathe');
    await bram.hears('The chuck key guard is bent');
  });

  await test.step('the steward sees it in Today, with the way to its thread', async () => {
    await bookPage(marit, 'Today');
    await expect(rowOf(marit, /^Long bed lathe is out/)).toContainText('Nobody has said yet');
    await shoot(marit, 'today');
    await expectFit(marit, 'Today');
    await rowOf(marit, /^Long bed lathe is out/).getByRole('link', { name: 'To its thread' }).tap();
    await expect(rowOf(marit, /^Long bed lathe$/)).toContainText('Tagged out by Bram');
    await shoot(marit, 'repairs');
    await expectFit(marit, 'Repairs');
  });

  await test.step('ilse mends it and cannot check it herself', async () => {
    await bookPage(ilse, 'Repairs');
    await expect(rowOf(ilse, /^Long bed lathe$/)).toContainText('Tagged out by Bram');
    await rowOf(ilse, /^Long bed lathe$/).getByRole('button', { name: 'Say more' }).tap();
    await sayMore(ilse, 'It is mended', 'Guard straightened');
    await expect(rowOf(ilse, /^Long bed lathe$/)).toContainText('You mended Long bed lathe: somebody else checks it.');
    await expect(rowOf(ilse, /^Long bed lathe$/).getByRole('button', { name: 'Check it' })).toHaveCount(0);
  });

  await test.step('the steward checks it, and it is back on every phone', async () => {
    await expect(rowOf(marit, /^Long bed lathe$/)).toContainText('Mended by Ilse');
    await rowOf(marit, /^Long bed lathe$/).getByRole('button', { name: 'Check it and give it back' }).tap();
    await marit.hears('Guards and covers are back, and hold.');
    await marit.page.screenshot({ path: `${FOLDER}/book-check.png` });
    await inSheet(marit, 'All so. It may be used again');
    await expect(rowOf(marit, /^Long bed lathe$/)).toHaveCount(1);
    await expect(rowOf(marit, /^Long bed lathe$/)).toContainText('out once');
    await bram.go('Room');
    await expect(bram.page.getByText('The chuck key guard is bent')).toHaveCount(0);
    const notes = hubLines(hub).map(said).filter(({ what, of_who: who }) => what === 'noted' && who === 'bram' );
    expect(notes.map(({ step }) => step).slice(-2)).toEqual(['mended', 'checked']);
  });
  for (const phone of [bram, ilse, marit]) await phone.close();
});

test('a mess is traced, asked about and settled; an incident is told and seen to', async ({ browser }) => {
  const noor = await openPhone(browser, hub);
  const marit = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  await joined(marit, 'Marit');
  await arrive(noor, 'Forge');
  await startMachine(noor, 'Angle grinder');
  await pass([noor, marit], { minutes: 5 });
  await noor.tap('Stop: Angle grinder');
  await noor.go('Room');
  await noor.tap('Found a mess');
  await inSheet(noor, 'Angle grinder');
  await noor.page.locator('dialog textarea').fill('Dust all over');
  await inSheet(noor, 'Note the mess');

  await test.step('the steward sees who could have left it', async () => {
    await bookPage(marit, 'Finds');
    const find = rowOf(marit, /^Angle grinder$/);
    await expect(find).toContainText('Dust all over');
    await expect(find).toContainText('Noor');
    await expect(find).toContainText('Not ticked');
    await expect(find.locator('svg.steel-rule')).toBeVisible();
    await shoot(marit, 'finds');
    await expectFit(marit, 'Finds');
    await find.getByRole('button', { name: 'A message to ask Noor with' }).first().tap();
    await expect(find.locator('textarea')).toHaveValue(/Hello Noor, Angle grinder was not clean/);
    await find.getByRole('button', { name: 'They were asked' }).tap();
    await expect(find).toContainText('Asked, Marit');
    await find.getByRole('button', { name: 'Note how it ended' }).tap();
    await sayMore(marit, 'Seen to', 'Was in a hurry; a brush hangs there now');
    await expect(rowOf(marit, 'Angle grinder: Seen to')).toContainText('a brush hangs there now');
    await bookPage(marit, 'Today');
    await expect(marit.page.getByText('Dust all over')).toHaveCount(0);
  });

  await test.step('an incident: cautions first, then what happened', async () => {
    await noor.tap('Tell the steward something');
    await noor.hears('If somebody is hurt, help and call first');
    await noor.page.locator('dialog textarea').fill('A disc burst behind its guard');
    await inSheet(noor, 'Near miss');
    await inSheet(noor, 'No');
    await noor.page.locator('dialog select').selectOption({ label: 'Angle grinder' });
    await noor.page.screenshot({ path: `${FOLDER}/book-incident-form.png` });
    await inSheet(noor, 'Put it in the log');
    await bookPage(marit, 'Incidents');
    const told = rowOf(marit, 'A disc burst behind its guard');
    await expect(told).toContainText('Near miss, Angle grinder, No first aid');
    await shoot(marit, 'incidents');
    await expectFit(marit, 'Incidents');
    for (const [label, words] of [['This was changed', 'discs are dated now'], ['Seen to', '']]) {
      await told.getByRole('button', { name: 'Follow it up' }).tap();
      await sayMore(marit, label, words);
    }
    await expect(told).toContainText('Something was changed, Marit');
    await bookPage(marit, 'Today');
    await expect(rowOf(marit, 'Told: A disc burst')).toHaveCount(0);
  });

  await test.step('who stays past their out-by stands first: name, room and time, each in its place', async () => {
    await pass([marit], { minutes: 240 });
    await bookPage(marit, 'Today');
    await expect(marit.page.locator('.needs > li').first()).toContainText(/^Noor in Forge meant to be out by \d{1,2}:\d\d\./);
    await marit.page.screenshot({ path: `${FOLDER}/book-past-out-by.png` });
  });

  await test.step('no member is handed an incident or what was noted of a mess', async () => {
    await noor.go('Book');
    await expect(noor.page.locator('.page-way').filter({ hasText: /^(Today|Finds|Incidents)/ })).toHaveCount(0);
    await expect(noor.page.locator('.page-way').filter({ hasText: /^Repairs/ })).toHaveCount(1);
    await noor.open('/book/finds');
    await noor.hears('This page is for whoever looks after the shop.');
  });
  for (const phone of [noor, marit]) await phone.close();
});
