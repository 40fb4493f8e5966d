// Longer words than English has: the screens of a session in the other languages, held to the same sizes and places.
//
// Nothing is found by its words here. What is said in which language is for the words' own tests.

import { expect, test } from '@playwright/test';
import { SETTINGS } from './fit.js';
import { misfits } from './geometry.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

const NARROW = SETTINGS.filter(({ name }) => ['a phone, text of 200 %', 'a small phone', 'a phone lying level'].includes(name));

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 120_000 });

for (const [locale, name] of [['es', 'Noor'], ['nl', 'Bram']]) {
  test(`a session in ${locale}`, async ({ browser }) => {
    const phone = await openPhone(browser, hub, { locale });
    const { page } = phone;
    const debuggerOf = await phone.context.newCDPSession(page);
    const fits = async (state) => {
      const own = page.viewportSize();
      const wrong = [];
      for (const { name, width, height, textPx } of NARROW) {
        await page.setViewportSize({ width, height });
        if (textPx) await debuggerOf.send('Page.setFontSizes', { fontSizes: { standard: textPx } });
        await phone.framed();
        wrong.push(...(await misfits(page, { largeText: Boolean(textPx) })).map((line) => `${name}: ${line}`));
        if (textPx) await debuggerOf.send('Page.setFontSizes', { fontSizes: { standard: 16 } });
      }
      await page.setViewportSize(own);
      expect(wrong, `${locale}, ${state}`).toEqual([]);
    };
    const act = () => page.locator('.big-button').last().tap();
    const shows = (what) => page.locator(what).last().waitFor();
    const go = async (index) => {
      await page.locator('.frame > .places > .place').nth(index).tap();
      await expect(page.locator('.frame > .places > .place').nth(index)).toHaveAttribute('aria-current', 'page');
    };

    await phone.open('/');
    await page.locator('.field-entry').fill(hub.joinCode);
    await expect(page.locator('html')).toHaveAttribute('lang', locale);
    await fits('joining');
    await act();
    await page.getByRole('button', { name }).tap();
    await shows('.row-act');
    await fits('Door');
    await page.locator('.row-act').first().tap();
    for (let step = 1; step <= 3; step++) {
      const before = await page.locator('.attest .statement').innerText();
      if (step === 1) await fits('a statement');
      await act();
      await expect(page.locator('main h1')).not.toHaveText(before);
    }
    await fits('out-by');
    await act();
    await shows('section.machines li');
    await fits('Bench');
    await page.locator('section.machines .quiet-button.is-faint').first().tap();
    await shows('dialog[open]');
    await fits('a refusal');
    await page.locator('.sheet-close').tap();
    await page.locator('section.machines .quiet-button:not(.is-faint)').first().tap();
    await shows('dialog[open]');
    await fits('before a machine starts');
    await act();
    await go(3);
    await fits('Room');
    await page.locator('.fire-act').tap();
    await shows('dialog[open]');
    await fits('fire');
    await page.locator('.sheet-close').tap();
    await go(4);
    await fits('Book');
    // From here on something waits for the network, and Book's name says how much.
    await phone.offline();
    await go(2);
    await act();
    await shows('dialog[open]');
    await fits('how many sweep');
    await act();
    await shows('.chore-row');
    await expect(page.locator('dialog[open]')).toHaveCount(0);
    await expect(page.locator('.place').last()).toContainText('+');
    await fits('Sweep');
    await act();
    await shows('dialog[open]');
    await fits('before leaving');
    await phone.close();
  });
}
