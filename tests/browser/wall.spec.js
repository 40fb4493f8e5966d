// A room's wall board: it rings for everybody in the room and names nobody, anybody calls everybody out, and it hangs for days.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';

let hub;
test.beforeEach(async () => (hub = await startHub()));
test.afterEach(async () => hub.dispose());

// Teun's tablet, hung up in the Forge by a steward.
async function hung(browser, options) {
  const wall = await openPhone(browser, hub, options);
  await joined(wall, 'Teun');
  const { device } = hub.steward('devices', 'list').findLast((phone) => phone.member === 'teun');
  hub.steward('devices', 'hang', device, 'forge');
  await wall.open('/board/forge');
  await wall.hears('Code for buddies');
  return wall;
}

const rung = (wall) => wall.page.locator('.board-bell');

test('whoever sees danger calls everybody out: the board rings, and each phone in the room', async ({ browser }) => {
  const wall = await hung(browser);
  const noor = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  await arrive(noor, 'Forge');
  const bram = await openPhone(browser, hub);
  await joined(bram, 'Bram');
  await arrive(bram, 'Fitting');
  await expect(wall.page.locator('.board-row')).toContainText('Noor');

  await wall.tap('Clear the room');
  await expect(rung(wall)).toHaveCount(0);
  await wall.tap('Ring for everybody: clear the room');
  await expect(rung(wall)).toContainText('everybody out');
  await wall.page.screenshot({ path: 'results/pictures/wall-clear.png' });
  const bell = noor.page.locator('dialog.bell');
  await expect(bell).toContainText('Clear the room.');
  await expect(bell).toContainText('Switch off and go out by the nearest way.');
  await noor.page.screenshot({ path: 'results/pictures/bell-clear.png' });
  await noor.tap('To the muster list');
  await noor.hears('Muster');
  await bram.go('Room');
  await expect(bram.page.locator('dialog.bell')).toHaveCount(0);

  // From a phone as well; whoever calls is not rung at.
  await pass([wall, noor, bram], { minutes: 6 });
  await expect(rung(wall)).toHaveCount(0);
  await noor.tap('Clear the room');
  await noor.tap('Ring for everybody: clear the room');
  await noor.hears(/Everybody was called out at/);
  await expect(rung(wall)).toContainText('everybody out');
  await expect(noor.page.locator('dialog.bell')).toHaveCount(0);
  for (const phone of [wall, noor, bram]) await phone.close();
});

test('a board hangs for a day: it rings once a bell, says how old its news is, and grows by nothing', async ({ browser }) => {
  test.setTimeout(240_000);
  const wall = await hung(browser, { viewport: { width: 1280, height: 800 } });
  const noor = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  await arrive(noor, 'Forge');
  await expect(wall.page.locator('.board-row')).toContainText('Noor');
  await noor.close();

  // Noor's sweep, then her out-by: the board says each, by no name. No minute is passed before the board has told it; the shop's
  // time is whole hours from the phone's.
  const heard = new Set();
  const told = () => Number(document.querySelector('.board-clock')?.textContent.split(':')[1]) === new Date().getMinutes();
  const minutes = async (count, step = 1) => {
    for (let minute = 0; minute < count; minute += step) {
      await wall.page.clock.fastForward(step * 60_000);
      await wall.page.waitForFunction(told, undefined, { polling: 10 });
      const words = await rung(wall).allTextContents();
      for (const text of words) heard.add(text.replace(/^\S+: /, ''));
    }
  };
  await minutes(240);
  expect([...heard]).toEqual(["somebody's sweep begins now. Look up from your work.", 'somebody is past their out-by.']);
  const places = new Set();
  for (let minute = 0; minute < 8; minute++) {
    places.add(await wall.page.locator('.screen.board').evaluate((board) => getComputedStyle(board).translate));
    await minutes(1);
  }
  expect(places.size).toBeGreaterThan(4);

  const before = await held(wall);
  await minutes(20 * 60, 4);
  const after = await held(wall);
  console.log('a board, after 4 h and after 24 h:', JSON.stringify({ before, after }));
  expect(after.nodes).toBeLessThan(before.nodes * 1.2 + 100);
  expect(after.listeners).toBeLessThan(before.listeners * 1.2 + 50);
  expect(after.bytes).toBeLessThan(before.bytes * 1.1 + 500_000);
  await expect(wall.page.locator('.board-row')).toContainText('Noor');

  await wall.offline();
  await minutes(30);
  await wall.hears('No hub now: this is what was last known.');
  await wall.offline(false);
  await minutes(6);
  await expect(wall.page.locator('.board-age')).not.toContainText('No hub now');
  await wall.close();
});

// What the page holds once what can go is gone.
async function held(wall) {
  const devtools = await wall.context.newCDPSession(wall.page);
  await devtools.send('Performance.enable');
  await devtools.send('HeapProfiler.collectGarbage');
  const { metrics } = await devtools.send('Performance.getMetrics');
  const metric = (name) => metrics.find((one) => one.name === name).value;
  await devtools.detach();
  return { bytes: metric('JSHeapUsedSize'), nodes: metric('Nodes'), listeners: metric('JSEventListeners') };
}
