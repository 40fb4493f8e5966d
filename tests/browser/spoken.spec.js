// What is said aloud to whoever does not look: how long is left, at a few moments and not each minute, and every bell with
// what to do.

import { expect, test } from '@playwright/test';
import { arrive, joined, startSweep } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, passUntil } from './phone.js';
import { clockAfter, instantOf } from './shop_time.js';

const MINUTE_MS = 60_000;
const FIRST_BELL_MINUTES = 10;
const HALF_MINUTE_MS = MINUTE_MS / 2;

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 90_000 });

const voice = (phone) => phone.page.locator('.frame > p[role=status]');

// In the middle of the minute that is so many minutes before an instant.
async function before(phone, at, minutes) {
  await passUntil([phone], at - minutes * MINUTE_MS + HALF_MINUTE_MS);
}

async function says(phone, at, until, moments) {
  for (const [minutes, words] of moments) {
    await before(phone, at, minutes);
    if (!words) await phone.ticks();
    const bell = phone.page.locator('dialog.bell');
    if (minutes === FIRST_BELL_MINUTES) await expect(bell).toBeVisible();
    if (await bell.isVisible()) await phone.tap(/^(Heard|To the sweep)$/);
    await expect(voice(phone), `${minutes} min before ${until}`).toHaveText(words ? new RegExp(`^${words} until ${until}, at \\d+:\\d\\d\\.$`) : '');
  }
}

test('what is left is said at 30, 15, 10, 5 and 1 minutes, and not between', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await arrive(phone, 'Fitting');
  const main = phone.page.locator('main');
  const sweepFrom = await instantOf(phone, await clockAfter(main, 'Sweep from'));
  const outBy = await instantOf(phone, await clockAfter(main, 'Out by'));
  await expect(voice(phone)).toHaveText('');
  await says(phone, sweepFrom, 'the sweep', [
    [31, ''],
    [30, '30 minutes'],
    [29, ''],
    [15, '15 minutes'],
    [10, '10 minutes'],
    [5, '5 minutes'],
    [1, '1 minute'],
  ]);
  await before(phone, sweepFrom, 0);
  const bell = phone.page.getByRole('alertdialog', { name: 'Stop. Start sweeping.' });
  await expect(bell).toHaveAccessibleDescription('Switch off, let it run down, then the chores stand ready in their order.');
  await expect(bell.getByRole('button', { name: 'To the sweep' })).toBeFocused();
  await phone.tap('To the sweep');
  await startSweep(phone);
  const minutesLeft = Math.floor((outBy - sweepFrom) / MINUTE_MS);
  const ahead = [
    [5, '5 minutes'],
    [1, '1 minute'],
  ];
  await says(phone, outBy, 'you must be out', ahead.filter(([minutes]) => minutes < minutesLeft));
  await phone.close();
});

test('it is said over a sheet too', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Bram');
  await arrive(phone, 'Fitting');
  const sweepFrom = await instantOf(phone, await clockAfter(phone.page.locator('main'), 'Sweep from'));
  await phone.tap('Tag a machine out');
  await before(phone, sweepFrom, 15);
  await expect(phone.page.locator('dialog[open] > p[role=status]')).toHaveText(/^15 minutes until the sweep/);
  await phone.close();
});
