// The README's pictures, made from the real app. They are written beside this file when PICTURES is set, else with the
// results, so that an ordinary run changes no file of the tree; either way every screen on them has to be reached.

import { expect, test } from '@playwright/test';
import { arrive, attestAll, join, joined, startMachine, startSweep, tickNext } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, passUntil } from './phone.js';
import { clockAfter, instantOf } from './shop_time.js';

const FOLDER = process.env.PICTURES ? 'pictures' : 'results/pictures';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

for (const [colorScheme, name] of [['dark', 'Noor'], ['light', 'Bram']]) {
  test(`an evening in pictures, ${colorScheme}`, async ({ browser }) => {
    const phone = await openPhone(browser, hub, { colorScheme, deviceScaleFactor: 1 });
    const picture = async (what) => {
      await phone.page.evaluate(() => document.querySelectorAll('*').forEach((part) => (part.scrollTop = 0)));
      await phone.page.screenshot({ path: `${FOLDER}/${what}-${colorScheme}.png` });
    };
    const other = await openPhone(browser, hub, { deviceScaleFactor: 1 });
    await joined(other, 'Ilse');
    await arrive(other, 'Forge');
    await phone.open('/');
    await join(phone, name);
    await phone.hears('At the door');
    await phone.tap(/^Forge/);
    await phone.hears('1 of 3');
    await picture('statement');
    await attestAll(phone);
    await phone.tap(/^Start, out by/);
    await startMachine(phone, 'Needle scaler');
    await startMachine(phone, 'Angle grinder');
    await picture('bench');
    await phone.tap('Ask for a buddy');
    await phone.hears('Scan their answer');
    await picture('buddy');
    await phone.tap('Back');
    await phone.page.setViewportSize({ width: 844, height: 390 });
    await picture('bench-stand');
    await phone.page.setViewportSize({ width: 390, height: 844 });
    await phone.page.getByRole('button', { name: /^Out by/ }).tap();
    await picture('out-by');
    await phone.tap('Back');
    await phone.page.setViewportSize({ width: 1280, height: 720 });
    await phone.open('/board/forge');
    await expect(phone.page.locator('.board-row .steel-rule')).toHaveCount(2);
    await picture('board');
    await phone.page.setViewportSize({ width: 390, height: 844 });
    await phone.open('/bench');
    await startSweep(phone);
    await tickNext(phone);
    await picture('sweep');
    await phone.go('Room');
    await picture('room');
    await phone.tap('Fire');
    await phone.hears('Leave. Warn the others. Call.');
    await picture('fire');
    await startSweep(other);
    await other.tap(/^Leave/);
    await other.hears('Before you go');
    await other.tap(/^Leave/);
    await other.hears('At the door');
    await other.close();
    await phone.tap('Back');
    await phone.go('Sweep');
    await phone.tap(/^Leave/);
    await phone.hears('Before you go');
    await phone.tap(/^Leave/);
    await phone.hears('At the door');
    await phone.close();
  });
}

// A bell is warning yellow in either theme.
test('the sweep bell in a picture', async ({ browser }) => {
  const phone = await openPhone(browser, hub, { deviceScaleFactor: 1, reducedMotion: 'reduce' });
  await joined(phone, 'Ilse');
  await arrive(phone, 'Fitting');
  await passUntil([phone], await instantOf(phone, await clockAfter(phone.page.locator('main'), 'Sweep from')));
  await phone.hears('Stop. Start sweeping.');
  await phone.page.screenshot({ path: `${FOLDER}/bell.png` });
  await phone.close();
});
