// A phone's clock that is set to another time in the middle of a session: said, noted, and not followed.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { phoneLines, said } from './record.js';
import { clockAfter } from './shop_time.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

for (const [way, hours, name] of [['forward', 3, 'Noor'], ['back', -3, 'Ilse']]) {
  test(`set ${way} by three hours, the session's times stay and no bell rings`, async ({ browser }) => {
    const phone = await openPhone(browser, hub);
    await joined(phone, name);
    await arrive(phone, 'Fitting');
    const main = phone.page.locator('main');
    const sweepFrom = await clockAfter(main, 'Sweep from');
    const left = Number(await main.locator('.figure-value').first().innerText());
    const now = await phone.page.evaluate(() => Date.now());
    await phone.context.clock.setSystemTime(now + hours * 3_600_000);

    await phone.hears(/The phone's clock jumped by -?1\d{4} seconds\./);
    await phone.hears("Your session's times stay as they were. It is noted in the log.");
    expect(await clockAfter(main, 'Sweep from')).toBe(sweepFrom);
    expect(Math.abs(Number(await main.locator('.figure-value').first().innerText()) - left)).toBeLessThanOrEqual(1);
    await expect(phone.page.locator('dialog.bell')).toBeHidden();
    const noted = (await phoneLines(phone)).map(({ jws }) => said(jws)).filter(({ what }) => what === 'clock_jumped');
    expect(noted).toHaveLength(1);
    expect(Math.abs(noted[0].seconds - hours * 3_600)).toBeLessThan(30);
    await phone.close();
  });
}
