// Whether a screen can be read and touched in a workshop: geometry.js for sizes and places, axe-core for WCAG 2.2 AA; in
// every theme, at every size, and with text of twice the size.
//
// Only what is in front is judged: a sheet or a bell makes what lies under it inert.

import { expect } from '@playwright/test';
import { expectAccessible, violations } from './accessibility.js';
import { misfits } from './geometry.js';

// What changes with a window, and with a theme; the other rules of axe-core ask about the page's structure, which stays, and about the
// size of targets, of which geometry.js asks more. Colours are asked about in each theme, and where a screen is arranged otherwise: they
// cost more than all else. What scrolls is reached by the keyboard: asked there too, and in the least windows, where most scrolls.
const OF_THE_LEAST = ['scrollable-region-focusable'];
const OF_LOOKS = ['color-contrast', ...OF_THE_LEAST];
const NONE = [];

const DARK = { colorScheme: 'dark', contrast: null, forcedColors: null };
const LIGHT = { ...DARK, colorScheme: 'light' };
const TEXT_PX = 16;

// How a screen is looked at: a window, a theme, the browser's own text size. `rules: null` asks every rule of axe-core, once;
// what only changes colours moves nothing, so that sizes and places are not measured again (`moves: false`). Neighbours share a
// window or a theme where they can: each change of one costs.
export const SETTINGS = [
  { name: 'a phone, dark', width: 390, height: 844, theme: DARK, rules: null },
  { name: 'a phone, light', width: 390, height: 844, theme: LIGHT, moves: false },
  { name: 'a phone, dark, more contrast', width: 390, height: 844, theme: { ...DARK, contrast: 'more' }, moves: false },
  { name: 'a phone, light, more contrast', width: 390, height: 844, theme: { ...LIGHT, contrast: 'more' }, moves: false },
  { name: "a phone, the system's own colours", width: 390, height: 844, theme: { ...DARK, forcedColors: 'active' }, moves: false },
  { name: 'a window of 1280 by 1024 at 400 %', width: 320, height: 256, theme: DARK, rules: OF_THE_LEAST },
  { name: 'a phone lying level, text of 200 %', width: 740, height: 360, theme: DARK, textPx: 2 * TEXT_PX, rules: OF_THE_LEAST },
  { name: 'a tablet', width: 1024, height: 768, theme: DARK, rules: NONE },
  { name: 'a board', width: 1920, height: 1080, theme: LIGHT },
  { name: 'a phone lying level', width: 740, height: 360, theme: LIGHT },
  { name: 'a small phone', width: 320, height: 640, theme: LIGHT, rules: NONE },
  { name: 'a common phone', width: 360, height: 740, theme: LIGHT, rules: NONE },
  { name: 'a phone, text of 200 %', width: 390, height: 844, theme: LIGHT, textPx: 2 * TEXT_PX, rules: NONE },
];

// One screen as it stands.
export async function expectFit(phone, where) {
  expect(await misfits(phone.page), where).toEqual([]);
  await expectAccessible(phone.page);
}

// One screen in all settings, with one line for each thing that is wrong in any; the phone is left as it was.
export async function expectFitEverywhere(phone, where) {
  const { page } = phone;
  const own = page.viewportSize();
  const debuggerOf = await phone.context.newCDPSession(page);
  const write = (px) => debuggerOf.send('Page.setFontSizes', { fontSizes: { standard: px } });
  const wrong = [];
  let before = {};
  for (const setting of SETTINGS) {
    const { name, width, height, theme, textPx = TEXT_PX, rules = OF_LOOKS, moves = true } = setting;
    const largeText = textPx > TEXT_PX;
    if (width !== before.width || height !== before.height) await page.setViewportSize({ width, height });
    if (theme !== before.theme) await page.emulateMedia(theme);
    before = setting;
    if (largeText) await write(textPx);
    const found = [...(moves ? await misfits(page, { largeText }) : []), ...(rules === NONE ? [] : await violations(page, rules))];
    wrong.push(...found.map((line) => `${name}: ${line}`));
    if (largeText) await write(TEXT_PX);
  }
  await page.setViewportSize(own);
  await page.emulateMedia({ colorScheme: null, contrast: null, forcedColors: null });
  await debuggerOf.detach();
  expect(wrong, where).toEqual([]);
}
