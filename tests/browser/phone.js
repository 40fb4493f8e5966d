// A phone in a test: a browser context of its own, a thumb that is counted, a camera that sees what it is shown, and a
// clock that can be moved on.
//
// Times are never waited for: Date, performance.now and the timers of the page are the browser driver's, and run on
// from wherever a test has put them. What the hub thinks of the time is its own affair.

import { expect } from '@playwright/test';
import { installCamera } from './camera.js';

export const PHONE = {
  viewport: { width: 390, height: 844 },
  deviceScaleFactor: 2,
  hasTouch: true,
  isMobile: true,
  locale: 'en-GB',
  timezoneId: 'UTC',
};

// Switches a phone on. Options: those of a browser context; `language`, one of languages.js, else English; whether it is
// new, and shows the first pages; and by how much its clock is behind.
export async function openPhone(browser, hub, { language, isNew = false, behindMs = 0, ...options } = {}) {
  const context = await browser.newContext({ ...PHONE, permissions: ['camera', 'notifications'], ...language?.options, ...options });
  await language?.serve(context);
  return takePhone(context, hub, { language, isNew, behindMs });
}

// The same for a context that is there already, such as one with a folder of its own.
export async function takePhone(context, hub, { language, isNew = false, behindMs = 0 } = {}) {
  if (!isNew) await context.addInitScript(() => localStorage.setItem('sweepbell.welcomed', '1'));
  await context.clock.install({ time: new Date(Date.now() - behindMs) });
  await installCamera(context);
  const page = context.pages()[0] ?? (await context.newPage());
  return new Phone(context, page, hub, language);
}

export class Phone {
  // Touches so far, typing counted once a field.
  taps = 0;
  // What the page has thrown.
  faults = [];

  constructor(context, page, hub, language) {
    // English words, as this phone says them.
    this.says = language ? language.says : (words) => words;
    this.context = context;
    this.page = page;
    this.hub = hub;
    page.on('pageerror', (error) => this.faults.push(String(error)));
  }

  // An address of the hub's, as a link or the phone's own camera app would open it.
  async open(path) {
    await this.page.goto(this.hub.origin + path);
  }

  // A button by its name; sheets and bells come after what they lie over, so the last one is in front.
  button(name) {
    return this.page.getByRole('button', { name: this.says(name), exact: typeof name === 'string' }).last();
  }

  async tap(name) {
    this.taps += 1;
    await this.button(name).tap();
  }

  // The link to a place, at the foot of what is in front; Book's name goes on with what waits.
  place(name) {
    const front = this.page.locator('dialog[open] .place, body:not(:has(dialog[open])) .place');
    return front.filter({ hasText: this.says(new RegExp(`^${name}`)) }).last();
  }

  async go(place) {
    this.taps += 1;
    await this.place(place).tap();
  }

  // Something is said, as text, by a heading, a notice or a line.
  async hears(text) {
    await expect(this.page.getByText(this.says(text, false)).first()).toBeVisible();
  }

  // And is said no more, or was not.
  async hearsNot(text) {
    await expect(this.page.getByText(this.says(text, false))).toHaveCount(0);
  }

  async offline(is = true) {
    await this.context.setOffline(is);
  }

  // The worker keeps the whole build: from here on no network is needed.
  async settled() {
    await expect
      .poll(() => this.page.evaluate(async () => Boolean((await navigator.serviceWorker.getRegistration())?.active)))
      .toBe(true);
  }

  // At least one tick of the app's has been and gone, so that what it would have shown is shown.
  async ticks() {
    await this.page.evaluate(() => new Promise((done) => setTimeout(() => requestAnimationFrame(done), 2_000)).then(() => {}));
  }

  // What was measured after the last change is drawn: an observer's turn, and a frame.
  async framed() {
    await this.page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  }

  // Switches it off. Whatever it did, the app must not have thrown anything.
  async close() {
    await this.context.close();
    expect(this.faults).toEqual([]);
  }
}

// Moves the clocks of all these phones on together, as time does.
export async function pass(phones, { minutes = 0, seconds = 0 }) {
  await Promise.all(phones.map((phone) => phone.context.clock.fastForward((minutes * 60 + seconds) * 1000)));
}

// Moves the clocks on to an instant (milliseconds since 1970) of the first phone's.
export async function passUntil(phones, at) {
  const now = await phones[0].page.evaluate(() => Date.now());
  await Promise.all(phones.map((phone) => phone.context.clock.fastForward(Math.max(0, at - now))));
}
