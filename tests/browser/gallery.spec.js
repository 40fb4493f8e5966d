// Every part with its states, beside its picture in gallery.pictures: a changed token or part is seen here first. Pictures
// that were meant to change are made anew with `cargo xtask browser gallery --update-snapshots`.

import { expect, test } from '@playwright/test';
import { expectAccessible } from './accessibility.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

// Edges of letters differ a little between builds of the browser.
const LIKE = { maxDiffPixelRatio: 0.02, animations: 'disabled' };

let hub;
test.beforeAll(async () => (hub = await startHub({ dist: process.env.SWEEPBELL_GALLERY })));
test.afterAll(async () => hub.dispose());

for (const colorScheme of ['dark', 'light']) {
  test(`every part as it was drawn, ${colorScheme}`, async ({ browser }) => {
    const phone = await openPhone(browser, hub, { colorScheme, deviceScaleFactor: 1, reducedMotion: 'reduce' });
    await phone.open('/gallery');
    await expect(phone.page.getByRole('heading', { name: 'Gallery' })).toBeVisible();
    await phone.page.evaluate(() => document.fonts.ready);
    await phone.ticks();
    const specimens = await phone.page.locator('.specimen').all();
    expect(specimens.length).toBeGreaterThanOrEqual(12);
    for (const specimen of specimens) {
      const name = await specimen.getAttribute('id');
      await expect.soft(specimen).toHaveScreenshot(`${name}-${colorScheme}.png`, LIKE);
    }
    await expectAccessible(phone.page);
    await phone.tap('Open a sheet');
    const sheet = phone.page.getByRole('dialog');
    await expect(sheet).toBeVisible();
    await expect.soft(sheet).toHaveScreenshot(`sheet-open-${colorScheme}.png`, LIKE);
    await phone.close();
  });
}
