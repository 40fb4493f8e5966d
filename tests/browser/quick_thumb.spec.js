// A sheet that is gone before its first frame was drawn or its camera answered, as on a busy phone: what comes late finds
// nothing, and harms nothing.

import { expect, test } from '@playwright/test';
import { arrive, atBench, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('frames that come after their sheet and their screen have gone', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await phone.page.evaluate(() => {
    const [own, held] = [globalThis.requestAnimationFrame, []];
    globalThis.requestAnimationFrame = (told) => held.push(told);
    globalThis.drawFrames = () => {
      globalThis.requestAnimationFrame = own;
      for (const told of held) told(performance.now());
      return held.length;
    };
  });
  const press = (label) => phone.page.evaluate((label) => [...document.querySelectorAll('button, nav a')].filter((part) => part.textContent.trim() === label).at(-1).click(), label);
  const sheet = phone.page.locator('dialog.sheet');
  await press('Ask for a buddy');
  await expect(sheet).toHaveCount(1);
  await press('Back');
  await expect(sheet).toHaveCount(0);
  await press('Sweep');
  await expect(phone.page).toHaveURL(/\/sweep$/);
  await press('Bench');
  await atBench(phone);
  expect(await phone.page.evaluate(() => globalThis.drawFrames())).toBeGreaterThan(0);
  await phone.ticks();
  await phone.close();
});

test('a camera that is refused after its sheet has gone', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await phone.page.evaluate(() => {
    navigator.mediaDevices.getUserMedia = () =>
      new Promise((_, fail) => (globalThis.refuse = () => fail(new DOMException('no', 'NotAllowedError'))));
  });
  // Each sheet asks once its script is there.
  const asked = () => expect.poll(() => phone.page.evaluate(() => typeof globalThis.refuse)).toBe('function');
  const refuse = () => phone.page.evaluate(() => (globalThis.refuse(), delete globalThis.refuse));
  await phone.tap('Scan the door code');
  await asked();
  await phone.tap('Back');
  await phone.hears('At the door');
  await refuse();
  await phone.ticks();
  await phone.tap('Scan the door code');
  await asked();
  await refuse();
  await phone.hears('The camera may not be used by this page.');
  await phone.close();
});
