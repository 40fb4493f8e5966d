// Codes that are not what is wanted, each with its own words; and codes of ours, read by an independent decoder.

import { expect, test } from '@playwright/test';
import { arrive, joined, scanAsk, showTo } from './acts.js';
import { hold } from './camera.js';
import { printedCodes, readByZbar, shownCode, terminalCode } from './codes.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';

const ASK_MINUTES = 5;

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('every printed code is read by ZBar as the address beside it', async ({ browser }) => {
  const printed = Object.entries(await printedCodes(browser, hub.origin));
  expect(printed.length).toBeGreaterThan(10);
  for (const [address, picture] of printed) expect(readByZbar(picture)).toEqual([address]);
});

test('the code in the terminal is read by ZBar as the door with the join code', async () => {
  const door = `${hub.origin}/d/forge#j=${hub.joinCode}`;
  await expect.poll(() => readByZbar(terminalCode(hub.said), 'pgm')).toEqual([door]);
});

test('codes that do not belong here say so, through the camera', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Bram');
  const foreign = await printedCodes(browser, 'https://yard.example.org');
  const elsewhere = await printedCodes(browser, `${hub.origin}/menu`);
  for (const [picture, reason, next] of [
    [foreign['https://yard.example.org/d/forge'], 'This code belongs to another shop (yard.example.org).', 'Scan a code that hangs in this shop.'],
    [elsewhere[`${hub.origin}/menu/d/forge`], 'This is not a code of this shop.', 'Scan the code at the door, or the one on the other phone.'],
  ]) {
    await hold(phone, picture);
    await phone.tap('Scan the door code');
    await phone.hears(reason);
    await phone.hears(next);
    await phone.tap('Got it');
  }
  await phone.close();
});

test('damaged and newer texts say so, typed', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Femke');
  for (const [typed, reason, next] of [
    ['SWB1:NOT/BASE45', 'This code did not come across whole.', 'Clean the lens, hold still, scan again.'],
    [`${hub.origin}/d/%ZZ`, 'This code did not come across whole.', 'Clean the lens, hold still, scan again.'],
    ['SWB2:ABC', 'This code was made by a newer app.', 'Load the newest app, then scan again.'],
    ['WIFI:S:guests;;', 'This is not a code of this shop.', 'Scan the code at the door, or the one on the other phone.'],
    ['cellar', 'This shop has no room called cellar.', 'Scan the code at the door again.'],
  ]) {
    await phone.tap('Scan the door code');
    // Its words take less room than the picture, and what lies below moves up.
    await phone.hears('There is no camera here.');
    const field = phone.page.getByLabel('Or type the name on the door');
    await field.fill(typed);
    await expect(field).toHaveValue(typed);
    await phone.tap('Use it');
    await expect(field).toBeHidden();
    await phone.hears(reason);
    await phone.hears(next);
    // Some are told where one arrives, which goes by the way back.
    const [read, back] = [phone.button('Got it'), phone.button('Back')];
    await expect(read.or(back)).toBeVisible();
    await ((await read.isVisible()) ? read : back).tap();
    await expect(phone.page.getByText(reason)).toHaveCount(0);
  }
  await phone.close();
});

test('asks and answers: shown ones are read by ZBar in both themes; old, used and misplaced ones are refused', async ({ browser }) => {
  const [noor, ilse, marit] = [await openPhone(browser, hub), await openPhone(browser, hub), await openPhone(browser, hub)];
  for (const [phone, name] of [[ilse, 'Ilse'], [marit, 'Marit'], [noor, 'Noor']]) await joined(phone, name);
  for (const phone of [noor, ilse, marit]) await arrive(phone, 'Fitting');

  await noor.tap('Ask for a buddy');
  await noor.hears(`Good for ${ASK_MINUTES} minutes more.`);
  for (const colorScheme of ['dark', 'light']) {
    await noor.page.emulateMedia({ colorScheme });
    expect(readByZbar(await shownCode(noor))).toEqual([expect.stringMatching(/^SWB1:/)]);
  }

  await test.step("one's own code makes nobody a buddy", async () => {
    await showTo(noor, noor);
    await noor.tap('Scan their answer');
    await noor.hears('Ask someone else in the room.');
    await noor.tap('Got it');
    await noor.tap('Show my code again');
  });

  await scanAsk(noor, ilse);
  await ilse.tap('I am in the room');
  const answer = await shownCode(ilse);
  expect(readByZbar(answer)).toEqual([expect.stringMatching(/^SWB1:/)]);

  await test.step('an answer to somebody else is refused', async () => {
    await marit.tap('Ask for a buddy');
    await hold(marit, answer);
    await marit.tap('Scan their answer');
    await marit.hears('That answer is for another ask.');
    await marit.hears('Have your buddy scan the code that is on your screen now.');
  });

  await test.step('the right one takes it once; shown again to a new ask it is refused', async () => {
    await noor.hears('Ilse is your buddy now.');
    await noor.tap('Got it');
    await noor.tap('Ask again: Ilse');
    await hold(noor, answer);
    await noor.tap('Scan their answer');
    await noor.hears('That answer is for another ask.');
    await noor.tap('Got it');
  });

  await test.step('an ask that has run out is no longer shown, and an answer to it is refused', async () => {
    await noor.tap('Show my code again');
    await Promise.all([noor.offline(), ilse.offline()]);
    await ilse.tap('Done');
    await scanAsk(noor, ilse);
    await ilse.tap('I am in the room');
    await pass([noor, ilse], { minutes: ASK_MINUTES, seconds: 30 });
    await noor.hears('This code has run out. Go back and ask again.');
    await showTo(ilse, noor);
    await noor.tap('Scan their answer');
    await noor.hears('This ask has run out.');
    await noor.hears('Show a new code and have it scanned again.');
  });
  for (const phone of [noor, ilse, marit]) await phone.close();
});
