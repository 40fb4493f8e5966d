// Rounds: what is late stands first with its source; one touch writes down that it was done, and every phone knows by whom.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { expectFit } from './fit.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { hubLines, said } from './record.js';

const FOLDER = process.env.PICTURES_OF_ROUNDS ?? 'results/pictures';
const GAPS = /^Pedestal grinder: rest within/;

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

function round(phone, text) {
  return phone.page.locator('li').filter({ has: phone.page.locator('.row-name', { hasText: text }) });
}

test('a round that is late is done in one touch, and the others see by whom', async ({ browser }) => {
  const noor = await openPhone(browser, hub);
  const bram = await openPhone(browser, hub, { colorScheme: 'light' });
  await joined(noor, 'Noor');
  await joined(bram, 'Bram');

  await test.step('outside a session rounds are shown and none can be done', async () => {
    await noor.go('Room');
    await expect(round(noor, GAPS)).toContainText('Late: it was due');
    await expect(round(noor, GAPS).getByRole('button')).toHaveCount(0);
    await noor.go('Door');
  });

  await arrive(noor, 'Forge');
  await noor.go('Room');
  await test.step('in the room the late one stands before those that are not due, and says who asks for it', async () => {
    await expect(round(noor, GAPS)).toContainText('29 CFR 1910.215(a)(4)');
    await expect(round(noor, GAPS)).toContainText(/Last done by .*days ago/);
    await expect(noor.page.getByText('Let the eye wash run')).toHaveCount(0);
    await expectFit(noor, 'Room with rounds');
    for (const [phone, theme] of [[noor, 'dark'], [noor, 'light']]) {
      await phone.page.emulateMedia({ colorScheme: theme });
      await round(phone, GAPS).scrollIntoViewIfNeeded();
      await phone.page.screenshot({ path: `${FOLDER}/rounds-${theme}.png` });
    }
    await noor.page.emulateMedia({ colorScheme: 'dark' });
  });

  await test.step('done once, it is no longer late, on no phone', async () => {
    const before = hubLines(hub).length;
    noor.taps = 0;
    await noor.tap(/^Done: Pedestal grinder/);
    expect(noor.taps).toBe(1);
    await expect(round(noor, GAPS)).toContainText('Last done by Noor, just now');
    await expect(round(noor, GAPS)).toContainText('Due in');
    await expect(round(noor, GAPS).getByRole('button')).toHaveCount(0);
    await expect.poll(() => hubLines(hub).slice(before).map(said).filter(({ what }) => what === 'round_done')).toHaveLength(1);
    await bram.go('Room');
    await expect(round(bram, GAPS)).toContainText('Last done by Noor');
    await noor.go('Book');
    await noor.hears(/^Round: Pedestal grinder/);
  });
  await noor.close();
  await bram.close();
});
