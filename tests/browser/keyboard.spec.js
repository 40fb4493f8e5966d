// The whole job without a mouse and without a touch: from the join code to a clean room by Tab, Enter, Space and Escape.

import { expect, test } from '@playwright/test';
import { atBench, machine } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

const STOPS_MAX = 60;

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 90_000 });

// The focused element's name, as it is called aloud.
const focused = (page) => page.evaluate(() => {
  const { activeElement: at } = document;
  return (at.getAttribute('aria-label') || at.labels?.[0]?.textContent || at.textContent || '').replaceAll(/\s+/g, ' ').trim();
});

// Tab until the focus is at what is called so.
async function reach(page, name) {
  const is = (text) => (name instanceof RegExp ? name.test(text) : text === name);
  const passed = [];
  for (let stops = 0; stops < STOPS_MAX; stops++) {
    const text = await focused(page);
    if (is(text)) return;
    passed.push(text.slice(0, 30));
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not come to ${name}; it passes ${[...new Set(passed)].join(' | ')}`);
}

test('from the join code to a clean room by the keyboard alone', async ({ browser }) => {
  const phone = await openPhone(browser, hub, { viewport: { width: 1024, height: 768 }, hasTouch: false, isMobile: false });
  const { page } = phone;
  const press = async (name, key = 'Enter') => {
    await reach(page, name);
    await page.keyboard.press(key);
  };
  const sheet = page.locator('dialog[open]');

  await test.step('join', async () => {
    await phone.open('/');
    await phone.hears('Join the shop');
    await reach(page, 'Join code');
    await page.keyboard.type(hub.joinCode);
    await press('Join');
    await phone.hears('Who are you?');
    await press('Noor');
    await phone.hears('At the door');
  });

  await test.step('arrive', async () => {
    await press(/^Forge/);
    for (let step = 1; step <= 3; step++) {
      await phone.hears(`${step} of 3`);
      // Each statement is read from its words on.
      await expect(page.locator('h1.statement')).toBeFocused();
      await press('Yes, it is so', step === 2 ? 'Space' : 'Enter');
    }
    await phone.hears('When must you be out?');
    await press('15 min later');
    await press(/^Start, out by/);
    await atBench(phone);
  });

  await test.step('a sheet is read from its heading, and Escape leads back to what opened it', async () => {
    await press('Why not?: Welding bay');
    await expect(sheet.getByRole('heading', { level: 1 })).toBeFocused();
    await page.keyboard.press('Escape');
    await expect(sheet).toHaveCount(0);
    await expect.poll(() => focused(page)).toBe('Why not?: Welding bay');
  });

  await test.step('work', async () => {
    await press('Start: Needle scaler');
    await press('All so. Start');
    await expect(machine(phone, 'Needle scaler')).toContainText('runs,');
    await press('Stop: Needle scaler');
    await expect(machine(phone, 'Needle scaler')).not.toContainText('runs,');
    await press('Tag a machine out');
    await press('Needle scaler');
    await expect(page.getByLabel('What is wrong with it?')).toBeFocused();
    await page.keyboard.type('The hose leaks');
    await press('Tag out: Needle scaler');
    await expect(machine(phone, 'Needle scaler')).toContainText('The hose leaks');
  });

  await test.step('look up, and go from place to place', async () => {
    await press('Room');
    await press('Fire');
    await phone.hears('Leave. Warn the others. Call.');
    // The places are within reach under a sheet too, and going there closes it.
    await press('Bench');
    await expect(sheet).toHaveCount(0);
    await expect(page).toHaveURL(/\/bench$/);
  });

  await test.step('sweep and leave', async () => {
    await press('Start sweeping');
    await press('Just me');
    await expect(page.getByRole('heading', { name: /^Sweep, / })).toBeVisible();
    const left = page.getByRole('checkbox', { checked: false });
    for (let count = await left.count(); count > 0; count--) {
      await press(await nameOf(left.first()), 'Space');
      await expect(left).toHaveCount(count - 1);
    }
    await press('I have left it clean');
    await phone.hears('At the door');
  });
  await phone.close();
});

const nameOf = (locator) => locator.evaluate((row) => row.textContent.replaceAll(/\s+/g, ' ').trim());
