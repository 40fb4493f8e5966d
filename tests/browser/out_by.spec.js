// The end stop on the steel rule: dragged, touched and moved by keys; the plan of every place is shown before it is said.

import { expect, test } from '@playwright/test';
import { arrive, joined, startMachine } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

const PICTURES = 'results/pictures';

for (const colorScheme of ['dark', 'light']) {
  test(`out-by is moved on the rule, ${colorScheme}`, async ({ browser }) => {
    const phone = await openPhone(browser, hub, { colorScheme, deviceScaleFactor: 1 });
    await joined(phone, colorScheme === 'dark' ? 'Noor' : 'Bram');
    await arrive(phone, 'Forge');
    await startMachine(phone, 'Angle grinder');
    const { page } = phone;
    await page.getByRole('button', { name: /^Out by/ }).tap();
    const stop = page.getByRole('slider', { name: 'Out by' });
    const sheet = page.getByRole('dialog');
    const told = () => sheet.locator('p.soft').first().innerText();
    const minutes = (text) => {
      const [hours, rest] = /out by (\d+):(\d+)/.exec(text).slice(1).map(Number);
      return hours * 60 + rest;
    };
    const first = await told();

    await stop.focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (minutes(await told()) - minutes(first) + 1440) % 1440).toBe(15);
    // What is said aloud is what is written, also while the plan is reckoned anew.
    await expect.poll(async () => (await stop.getAttribute('aria-valuetext')) === (await told())).toBe(true);
    // Every time of the plan went along.
    const sweep = (text) => /sweep from (\d+:\d+)/.exec(text)[1];
    await expect.poll(async () => sweep(await told())).not.toBe(sweep(first));

    // Dragged: the stop is under the finger.
    const box = await stop.boundingBox();
    await page.mouse.move(box.x + box.width * 0.4, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.75, box.y + box.height / 2, { steps: 8 });
    await page.mouse.up();
    await expect.poll(async () => Math.abs((await drawn(page)).stop - (box.x + box.width * 0.75))).toBeLessThan(12);
    await page.screenshot({ path: `${PICTURES}/out-by-${colorScheme}.png` });
    await page.setViewportSize({ width: 740, height: 360 });
    await page.screenshot({ path: `${PICTURES}/out-by-level-${colorScheme}.png` });
    await page.setViewportSize({ width: 390, height: 844 });

    // Dragged past what the rules allow, it stops, and so does what is under the finger.
    await page.mouse.click(box.x + 40, box.y + box.height / 2);
    const off = async () => {
      const { stop, rule, share } = await drawn(page);
      return Math.abs(stop - (rule.x + share * rule.width));
    };
    await expect.poll(off).toBeLessThan(12);

    // Past the end of the rule the rule grows, and the stop is still where the thumb is.
    const last = await page.evaluate(() => document.querySelector('.end-stop input').max);
    for (let press = 0; press < 30; press++) await phone.tap('15 min later');
    expect(Number(await stop.inputValue())).toBeGreaterThan(Number(last));
    expect(await stop.getAttribute('max')).toBe(await stop.inputValue());

    const chosen = /out by (\d+:\d+)/.exec(await told())[1];
    await phone.tap(`Out by ${chosen}`);
    await expect(page.getByRole('button', { name: /^Out by/ })).toContainText(chosen);
    await phone.close();
  });
}

// Where the stop is drawn, the rule it is on, and the share of its length at which the input stands: of one moment, as the
// rule is drawn anew whenever it changes.
function drawn(page) {
  return page.locator('.end-stop').evaluate((end) => {
    const input = end.querySelector('input');
    const { x, width } = end.querySelector('.steel-rule').getBoundingClientRect();
    const stop = end.querySelector('.sr-stop').getBoundingClientRect().x;
    return { stop, rule: { x, width }, share: (input.value - input.min) / (input.max - input.min) };
  });
}
