// Times as the shop's clock shows them on a screen, made instants again.

import { expect } from '@playwright/test';

const ZONE = 'Europe/Amsterdam';
const DAY_MINUTES = 24 * 60;
const CLOCK = new Intl.DateTimeFormat('en-GB', { timeZone: ZONE, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });

// The next instant at which the shop's clock shows `clock`, at or after the minute that the phone is in.
export async function instantOf(phone, clock) {
  const now = await phone.page.evaluate(() => Date.now());
  const minute = (text) => text.split(':').reduce((hours, minutes) => Number(hours) * 60 + Number(minutes));
  const ahead = (minute(clock) - minute(CLOCK.format(now)) + DAY_MINUTES) % DAY_MINUTES;
  return (Math.floor(now / 60_000) + ahead) * 60_000;
}

// The clock time that stands in a text behind these words, once it is there: "Sweep from 13:50, in".
export async function clockAfter(locator, words) {
  const time = new RegExp(`${words}\\D{0,12}(\\d{1,2}:\\d\\d)`);
  await expect(locator).toContainText(time, { useInnerText: true });
  return time.exec(await locator.innerText())[1];
}
