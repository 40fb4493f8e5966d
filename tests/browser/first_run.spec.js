// The first pages: three at most, skipped by one touch, and never again; each browser's own way to the home screen.

import { expect, test } from '@playwright/test';
import { join } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

const PICTURES = 'results/pictures';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

async function fresh(browser, options = {}) {
  const phone = await openPhone(browser, hub, { isNew: true, deviceScaleFactor: 1, ...options });
  await phone.open('/');
  await join(phone, 'Saar');
  await phone.hears('It keeps your time');
  return phone;
}

for (const colorScheme of ['dark', 'light']) {
  test(`three pages and no more, ${colorScheme}`, async ({ browser }) => {
    const phone = await fresh(browser, { colorScheme });
    await expect(phone.page.locator('.welcome .steel-rule')).toBeVisible();
    await phone.page.screenshot({ path: `${PICTURES}/welcome-1-${colorScheme}.png` });
    await phone.tap('Next');
    await phone.hears('You look after each other');
    await phone.page.screenshot({ path: `${PICTURES}/welcome-2-${colorScheme}.png` });
    await phone.tap('Next');
    await phone.hears('Keep it at hand');
    await phone.page.screenshot({ path: `${PICTURES}/welcome-3-${colorScheme}.png` });
    await phone.tap('To the door');
    await expect(phone.page.getByRole('dialog')).toHaveCount(0);
    await phone.hears('At the door');
    await phone.open('/');
    await phone.hears('At the door');
    await expect(phone.page.getByRole('dialog')).toHaveCount(0);
    await phone.close();
  });
}

test('one touch skips them for ever', async ({ browser }) => {
  const phone = await fresh(browser);
  await phone.tap('Skip');
  await expect(phone.page.getByRole('dialog')).toHaveCount(0);
  await phone.hears('At the door');
  await phone.open('/book');
  await phone.hears('This phone');
  await expect(phone.page.getByRole('dialog')).toHaveCount(0);
  await phone.close();
});

const WAYS = [
  ['Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 Version/18.0 Mobile/15E148 Safari/604.1', /share button/],
  ['Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0', /menu of the browser/],
  ['Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0', /On a computer/],
];

for (const [userAgent, way] of WAYS) {
  test(`the way to the home screen: ${way}`, async ({ browser }) => {
    const phone = await fresh(browser, { userAgent });
    await phone.tap('Next');
    await phone.tap('Next');
    await phone.hears(way);
    await phone.close();
  });
}

test('a browser that offers to ask is let ask', async ({ browser }) => {
  const phone = await fresh(browser);
  await phone.page.evaluate(() => {
    const offer = new Event('beforeinstallprompt', { cancelable: true });
    offer.prompt = () => (document.title = 'asked');
    dispatchEvent(offer);
  });
  await phone.tap('Next');
  await phone.tap('Next');
  await phone.tap('Put it there');
  await expect(phone.page).toHaveTitle('asked');
  await phone.close();
});
