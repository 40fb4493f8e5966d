// What the bell sounds like, recorded: rendered by the browser's own audio engine from the very script that a phone runs, and
// measured here; and when the phone has its sound on at all. How loud a phone is, nobody can measure without one.
//
// ISO 7731:2003, from memory: a danger signal has its energy between 500 and 2,500 Hz, and where people wear hearing protection
// or hear badly enough of it below 1,500 Hz. A rising pair is told from a machine's steady noise.

import { readFile } from 'node:fs/promises';
import { expect, test } from '@playwright/test';

const RATE = 44_100;
const [LOW, HIGH] = [880, 1320];
const script = await readFile(new URL('../../app/js/bell.js', import.meta.url), 'utf8');

// A ring of so many rounds as samples, from 0 s on.
async function recorded(page, rounds, loud) {
  return page.evaluate(
    async ([source, rate, rounds, loud, low, high]) => {
      const bell = await import(`data:text/javascript;base64,${btoa(unescape(encodeURIComponent(source)))}`);
      const into = new OfflineAudioContext(1, rate * 5, rate);
      bell.sound(into, 0, low, high, rounds, loud);
      return Array.from((await into.startRendering()).getChannelData(0));
    },
    [script, RATE, rounds, loud, LOW, HIGH],
  );
}

const part = (samples, from, to) => samples.slice(Math.round(from * RATE), Math.round(to * RATE));
const rms = (samples) => Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length);
const decibels = (ratio) => 20 * Math.log10(ratio);

// The power at one frequency (Goertzel).
function powerAt(samples, hz) {
  const turn = 2 * Math.cos((2 * Math.PI * hz) / RATE);
  let [one, two] = [0, 0];
  for (const sample of samples) [one, two] = [sample + turn * one - two, one];
  return (one * one + two * two - turn * one * two) / (samples.length / 2) ** 2;
}

test('two rising tones, loud, in the band that gets through', async ({ page }) => {
  await page.goto('about:blank');
  const samples = await recorded(page, 5, 1);
  expect(samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)).toBeLessThanOrEqual(1);
  for (let round = 0; round < 5; round++) {
    const from = round * 0.89;
    const [low, high] = [part(samples, from + 0.03, from + 0.25), part(samples, from + 0.35, from + 0.57)];
    // As loud as a loudspeaker can be without being torn, but for the first round.
    for (const tone of [low, high]) expect(decibels(rms(tone))).toBeGreaterThan(round ? -3 : -9);
    for (const [tone, own, other] of [[low, LOW, HIGH], [high, HIGH, LOW]]) {
      expect(powerAt(tone, own)).toBeGreaterThan(20 * powerAt(tone, other));
      // The share of the ground tone, which lies between 500 and 1,500 Hz: of a square wave 8 / pi^2.
      const share = powerAt(tone, own) / 2 / rms(tone) ** 2;
      expect(share).toBeGreaterThan(0.75);
    }
    // Silence between rounds lets a word through.
    expect(decibels(rms(part(samples, from + 0.68, from + 0.86)) + 1e-9)).toBeLessThan(-60);
  }
  // Nothing begins from one sample to the next: the first fiftieth of a second swells.
  expect(rms(part(samples, 0, 0.005))).toBeLessThan(0.25 * rms(part(samples, 0.03, 0.25)));
});

test('softer at night by 12 dB, and by day as loud as ever', async ({ page }) => {
  await page.goto('about:blank');
  const [full, soft] = [await recorded(page, 2, 1), await recorded(page, 2, 0.25)];
  const quieter = decibels(rms(part(full, 0, 1.5)) / rms(part(soft, 0, 1.5)));
  expect(quieter).toBeCloseTo(12.04, 1);
  const levels = await page.evaluate(async (source) => {
    const bell = await import(`data:text/javascript;base64,${btoa(unescape(encodeURIComponent(source)))}`);
    return [['', 3], ['night', 21], ['night', 22], ['night', 6], ['night', 7], ['mute', 12], ['night mute', 23], ['say', 23]].map(([words, hour]) =>
      bell.level(words, hour),
    );
  }, script);
  expect(levels).toEqual([1, 1, 0.25, 0.25, 1, 0, 0, 1]);
});

// The state of the page's sound, and how many seconds it has run.
const sounds = (page) => page.evaluate(() => [globalThis.made.state, globalThis.made.currentTime]);

test('a phone has its sound on while a ring sounds, and no longer', async ({ page }) => {
  // A page with a storage of its own, in which the phone's owner chooses how bells come.
  await page.route('https://phone.invalid/**', (route) => {
    const isScript = route.request().url().endsWith('.js');
    return route.fulfill(isScript ? { contentType: 'text/javascript', body: script } : { contentType: 'text/html', body: '' });
  });
  await page.goto('https://phone.invalid/');
  await page.evaluate(async () => {
    globalThis.AudioContext = class extends AudioContext {
      constructor() {
        super();
        globalThis.made = this;
      }
    };
    globalThis.bell = await import('/bell.js');
    globalThis.bell.unlockOnTouch();
  });
  const audible = () => page.evaluate(() => globalThis.bell.audible());
  expect(await audible()).toBe(false);
  await page.mouse.click(10, 10);
  await expect.poll(audible).toBe(true);
  await expect.poll(async () => (await sounds(page))[0]).toBe('suspended');

  // Two rings, of which the second begins while the first still sounds: on until the later one's end.
  const [, before] = await sounds(page);
  await page.evaluate(() => globalThis.bell.ring(880, 1320, 2));
  await expect.poll(async () => (await sounds(page))[0]).toBe('running');
  await expect.poll(async () => (await sounds(page))[1]).toBeGreaterThan(before + 0.4);
  await page.evaluate(() => globalThis.bell.ring(880, 1320, 2));
  await page.mouse.click(10, 10);
  await expect.poll(async () => (await sounds(page))[0]).toBe('suspended');
  const [, after] = await sounds(page);
  expect(after - before).toBeGreaterThan(0.4 + 2 * 0.64 + 0.25);
  expect(await audible()).toBe(true);

  // Back from out of sight, where some phones take the sound away, a touch starts it once more, and it rests again.
  await page.evaluate(() => dispatchEvent(new Event('visibilitychange')));
  await page.mouse.click(10, 10);
  await expect.poll(async () => (await sounds(page))[1]).toBeGreaterThan(after);
  await expect.poll(async () => (await sounds(page))[0]).toBe('suspended');

  // And again, by itself.
  await page.evaluate(() => globalThis.bell.ring(880, 1320, 1));
  await expect.poll(async () => (await sounds(page))[1]).toBeGreaterThan(after + 0.6);
  await expect.poll(async () => (await sounds(page))[0]).toBe('suspended');
});
