// What of the bells reaches a phone: said on Bench, armed in one sheet: the phone's own timer by its owner's word, a calendar
// file, and a try.

import { readFile } from 'node:fs/promises';
import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';
import { phoneLines, said } from './record.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

for (const colorScheme of ['dark', 'light']) {
  test(`a timer is set and told, moved times ask for another, ${colorScheme}`, async ({ browser }) => {
    const noor = await openPhone(browser, hub, { colorScheme, deviceScaleFactor: 1 });
    await joined(noor, colorScheme === 'dark' ? 'Noor' : 'Ilse');
    await arrive(noor, 'Fitting');
    const line = noor.page.locator('.pocket-line');
    await expect(line).toContainText("Set the phone's own timer as well.");
    await noor.tap('Bells in a pocket');
    const sheet = noor.page.locator('dialog.sheet');
    await expect(sheet).toContainText('Set a timer in the phone');
    await sheet.screenshot({ path: `results/pictures/pocket-${colorScheme}.png` });
    await noor.page.setViewportSize({ width: 844, height: 390 });
    await sheet.screenshot({ path: `results/pictures/pocket-level-${colorScheme}.png` });
    await noor.page.setViewportSize({ width: 390, height: 844 });

    const take = async () => {
      const [download] = await Promise.all([noor.page.waitForEvent('download'), noor.page.getByText('Take the bells along for the calendar').click()]);
      expect(download.suggestedFilename()).toBe('sweepbell.ics');
      const file = await readFile(await download.path(), 'utf8');
      const value = (name) => new RegExp(`^${name}:(.*)\r$`, 'm').exec(file)[1];
      expect(file.match(/BEGIN:VALARM/g)).toHaveLength(2);
      return { uid: value('UID'), sequence: Number(value('SEQUENCE')), starts: value('DTSTART') };
    };
    const first = await take();

    // The notice of a try is the phone's own, and says that it is one.
    await noor.tap('Ring it now');
    // It is on the screen by then: looked for while it is being put there, one in eighty was not found again.
    await noor.ticks();
    await expect
      .poll(() => noor.page.evaluate(async () => (await (await navigator.serviceWorker.ready).getNotifications()).map((one) => one.body)))
      .toEqual([expect.stringContaining('Only a try.')]);

    await noor.tap('I have set it');
    await expect(sheet).toContainText(/The phone's own timer rings at \d{1,2}:\d\d, as you said\./);
    const told = said((await phoneLines(noor)).at(-1).jws);
    expect(told.what).toBe('timer_set');
    await noor.tap('Back');
    await expect(line).toContainText("The phone's own timer rings at");

    // Out-by is moved an hour earlier: the timer is too late, and the calendar's entry moves.
    await noor.tap(/^Out by/);
    for (let quarter = 0; quarter < 4; quarter++) await noor.tap('15 min earlier');
    await noor.tap(/^Out by \d/);
    await expect(line).toContainText('after the sweep bell: set it anew.');
    // The file is numbered by the session's seconds; a quick machine does all of this in one.
    await pass([noor], { seconds: 2 });
    await noor.tap('Bells in a pocket');
    const moved = await take();
    expect(moved.uid).toBe(first.uid);
    expect(moved.sequence).toBeGreaterThan(first.sequence);
    expect(moved.starts < first.starts).toBe(true);
    await noor.close();
  });
}
