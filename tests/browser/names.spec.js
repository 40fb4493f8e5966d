// Names as they come: very long ones, without a space to break at, written from right to left, and two that are the same. Every
// screen that shows them fits at the smallest phone's width, and nobody is taken for somebody else.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { expect, test } from '@playwright/test';
import { expectAccessible } from './accessibility.js';
import { arrive, startMachine } from './acts.js';
import { misfits } from './geometry.js';
import { startHub } from './hub.js';
import { overlaps } from './overlaps.js';
import { openPhone } from './phone.js';

const LONG = 'Maximiliane Konstantina van der Oosterzee-Brandenburghoven';
const UNBROKEN = 'Wilhelminakonstantinavanderoosterzeebrandenburg';
const HEBREW = '\u05e0\u05d5\u05e2\u05d4 \u05d1\u05df-\u05d3\u05d5\u05d3';
const ARABIC = '\u0633\u0644\u0645\u0649 \u0627\u0644\u062d\u062f\u0627\u062f';
const FOLDER = 'results/pictures';

let hub, folder;
test.beforeAll(async () => {
  mkdirSync(FOLDER, { recursive: true });
  folder = mkdtempSync(path(tmpdir(), 'sweepbell-names-'));
  const member = (id, name, more = '') => `[[member]]\nid = "${id}"\nname = "${name}"\ninducted_until = 2029-12-31\nsigned_off = { grinders = 2029-12-31 }\n${more}\n`;
  const members = path(folder, 'members.toml');
  writeFileSync(members, [member('long', LONG, 'steward = true'), member('unbroken', UNBROKEN), member('noa', HEBREW), member('salma', ARABIC), member('sam-v', 'Sam'), member('sam-d', 'Sam')].join(''));
  hub = await startHub({ shop: 'hub/demo/shop.toml', members });
});
test.afterAll(async () => {
  await hub.dispose();
  rmSync(folder, { recursive: true, force: true });
});

// As this member, whatever they are called.
async function enters(browser, id, called, room = 'Forge') {
  const phone = await openPhone(browser, hub);
  await phone.open('/');
  await phone.page.getByLabel('Join code').fill(hub.codeFor(id));
  await phone.tap('Join');
  await expect(phone.page.locator('main')).toContainText(called);
  await phone.tap(/^Join as/);
  await phone.hears('At the door');
  if (room) await arrive(phone, room);
  return phone;
}

const OF_PHONES = [{ width: 390, height: 844 }, { width: 320, height: 640 }, { width: 740, height: 360 }];
// A board hangs as a tablet or a larger thing.
const OF_BOARDS = [{ width: 1024, height: 768 }, { width: 1920, height: 1080 }];

// What the page is made of is asked about at the first size, its sizes and places at each.
async function fits(phone, where, sizes = OF_PHONES) {
  for (const [number, size] of sizes.entries()) {
    await phone.page.setViewportSize(size);
    if (number === 0) await expectAccessible(phone.page);
    expect(await misfits(phone.page), `${where} at ${size.width}`).toEqual([]);
    expect(await overlaps(phone.page), `${where} at ${size.width}`).toEqual([]);
  }
  await phone.page.setViewportSize({ width: 390, height: 844 });
}

test('long, right-to-left and identical names fit, and nobody is taken for another', async ({ browser }) => {
  test.setTimeout(180_000);
  const long = await enters(browser, 'long', LONG, null);
  await fits(long, 'Door');
  const inside = [];
  for (const [id, called] of [['unbroken', UNBROKEN], ['noa', HEBREW], ['salma', ARABIC], ['sam-v', 'Sam (sam-v)'], ['sam-d', 'Sam (sam-d)']]) {
    inside.push(await enters(browser, id, called));
  }
  const [unbroken, noa] = inside;
  await startMachine(unbroken, 'Angle grinder');
  await unbroken.tap('Ask for a buddy');
  await unbroken.page.locator('dialog').getByText('Sam (sam-v)').first().waitFor();
  await fits(unbroken, 'an ask');
  await unbroken.tap('Back');

  await long.go('Room');
  for (const called of [UNBROKEN, HEBREW, ARABIC, 'Sam (sam-v)', 'Sam (sam-d)']) await long.hears(called);
  await fits(long, 'Room');
  await long.page.screenshot({ path: `${FOLDER}/names-room.png` });
  await noa.go('Room');
  await noa.tap('Fire');
  await fits(noa, 'Fire');
  await noa.tap('Back');

  await noa.tap('Found a mess');
  await noa.page.locator('dialog').getByRole('button', { name: 'Angle grinder' }).tap();
  await noa.page.locator('dialog textarea').fill('Dust');
  await noa.page.locator('dialog').getByRole('button', { name: 'Note the mess' }).tap();
  for (const [address, words] of [['/book/today', HEBREW], ['/book/people', LONG], ['/book/finds', UNBROKEN]]) {
    await long.open(address);
    await expect(long.page.locator('main')).toContainText(words);
    await fits(long, address);
    await long.page.screenshot({ path: `${FOLDER}/names${address.replaceAll('/', '-')}.png` });
  }
  await long.open('/board/forge');
  await expect(long.page.locator('.board-row').first()).toBeVisible();
  await fits(long, 'the board', OF_BOARDS);
  await long.page.setViewportSize(OF_BOARDS[0]);
  await long.page.screenshot({ path: `${FOLDER}/names-board.png` });
  for (const phone of [long, ...inside]) await phone.close();
});
