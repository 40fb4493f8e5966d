// What shows that a buddy is in the room: the changing code on the wall board, and figures of one's own on the operator's
// phone. Both sides see which it was, and so does the Book.

import { expect, test } from '@playwright/test';
import { arrive, joined, scanAsk, showTo } from './acts.js';
import { startHub, sweepbell } from './hub.js';
import { openPhone } from './phone.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

// The board's code as it stands on the wall now.
async function onTheWall(wall) {
  const text = await wall.page.locator('.board-code').innerText();
  return /\d{3} \d{3}/.exec(text)[0];
}

test('a code read off the board shows that the buddy is in the room', async ({ browser }) => {
  const [noor, ilse, wall] = [await openPhone(browser, hub), await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(noor, 'Noor');
  await joined(ilse, 'Ilse');
  await joined(wall, 'Teun');
  await wall.page.setViewportSize({ width: 1280, height: 800 });
  await wall.open('/board/forge');
  await wall.hears('Nobody');
  await expect(wall.page.locator('.board-code')).toHaveCount(0);
  // The steward hangs it up, at the hub's own machine.
  const listed = sweepbell('devices', 'list', '--demo', '--data', hub.dataDir);
  const board = JSON.parse(listed.stdout).filter((one) => one.member === 'teun').at(-1).device;
  expect(sweepbell('devices', 'hang', board, 'forge', '--demo', '--data', hub.dataDir).status).toBe(0);
  await expect(wall.page.locator('.board-code')).toContainText(/\d{3} \d{3}/);
  // Phones must have heard of it before they are cut off.
  await expect(async () => {
    for (const phone of [noor, ilse]) {
      const rooms = await phone.page.evaluate(async () => (await (await fetch('/api/shop')).json()).boards);
      expect(rooms?.[0]?.room).toBe('forge');
    }
  }).toPass();
  for (const phone of [noor, ilse]) await phone.open('/');

  await arrive(noor, 'Forge');
  await arrive(ilse, 'Forge');
  // By eye alone: over the network an answer would be there before it is scanned.
  await Promise.all([noor.settled(), ilse.settled()]);
  await Promise.all([noor.offline(), ilse.offline()]);
  const ask = async () => {
    await noor.go('Bench');
    await noor.tap(/^Ask (for a buddy|again)/);
    await scanAsk(noor, ilse);
  };
  const answer = async (typed) => {
    await ilse.page.getByLabel('Code on the board').fill(typed);
    await ilse.tap('I am in the room');
    await showTo(ilse, noor);
    await noor.tap('Scan their answer');
  };
  await ask();
  await answer('000 000');
  await noor.hears('The board did not show that code just now.');
  await noor.page.locator('dialog').getByRole('button', { name: 'Got it' }).tap();
  await noor.tap('Back');
  await ilse.tap('Done');
  await ask();
  await answer(await onTheWall(wall));
  await noor.hears('Ilse is your buddy now.');
  await noor.tap('Got it');
  await noor.go('Bench');
  await noor.hears(/Ilse is your buddy\s*in the room, 1/);
  await ilse.tap('Done');
  await Promise.all([noor.offline(false), ilse.offline(false)]);
  await noor.settled();
  await ilse.go('Bench');
  await ilse.hears(/You are Noor's buddy until .*, in the room/);
  await noor.go('Book');
  await noor.hears(/Ilse is buddy, in the room/);
  for (const phone of [noor, ilse, wall]) await phone.close();
});

test('a buddy whose phone is empty confirms with figures of their own', async ({ browser }) => {
  const [noor, ilse] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(ilse, 'Ilse');
  await ilse.go('Book');
  const own = ilse.page.getByLabel('Six figures of your own');
  await own.fill('123456');
  await ilse.tap('Keep these figures');
  await ilse.hears('Anybody would try those first.');
  await ilse.tap('Got it');
  await own.fill('204817');
  await ilse.tap('Keep these figures');
  await ilse.hears('These are your figures from now on.');
  await ilse.close();

  await joined(noor, 'Noor');
  await arrive(noor, 'Forge');
  await noor.settled();
  await noor.offline();
  await noor.tap(/^Ask for a buddy/);
  await noor.tap('A buddy without a phone');
  await noor.page.locator('dialog').getByRole('button', { name: 'Ilse' }).tap();
  const figures = noor.page.getByLabel('Six figures of Ilse');
  await expect(figures).toHaveAttribute('type', 'password');
  await figures.fill('204818');
  await noor.tap('I am in the room');
  await noor.hears('Those are not their figures.');
  await noor.page.locator('dialog').getByRole('button', { name: 'Got it' }).tap();
  await figures.fill('204817');
  await noor.tap('I am in the room');
  await noor.hears('Ilse is your buddy now.');
  await noor.tap('Got it');
  await noor.hears(/Ilse is your buddy\s*by their figures, 1/);
  await noor.close();
});
