// The keyboard's way through what is in front: every target is a stop, in the order in which it is read; where the focus is
// can be seen, and nothing covers it (WCAG 2.2: 2.1.1, 2.4.3, 2.4.7, 2.4.11).

import { expect } from '@playwright/test';

// Walks through by Tab from the first stop to the last.
export async function expectFocusInOrder(phone, where) {
  const { page } = phone;
  const stops = await page.evaluate(() => {
    const front = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
    const seen = (element) => element.checkVisibility({ visibilityProperty: true }) && element.getClientRects().length > 0;
    const stops = [...front.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')].filter(seen);
    stops.forEach((stop, index) => (stop.dataset.stop = index));
    stops[0]?.focus({ focusVisible: true });
    return stops.length;
  });
  expect(stops, `${where}: something can be pressed`).toBeGreaterThan(0);
  const wrong = [];
  for (let index = 0; index < stops; index++) {
    if (index > 0) await page.keyboard.press('Tab');
    wrong.push(...(await page.evaluate(stopAt, index)));
  }
  await page.evaluate(() => document.querySelectorAll('[data-stop]').forEach((stop) => delete stop.dataset.stop));
  expect(wrong, `${where}: the keyboard's way through`).toEqual([]);
}

// In the page: what is wrong with the stop that the focus is at.
function stopAt(index) {
  const stop = document.activeElement;
  const told = `${stop.tagName.toLowerCase()}.${[...stop.classList].join('.')} "${(stop.getAttribute('aria-label') || stop.textContent).trim().slice(0, 40)}"`;
  if (stop.dataset.stop !== String(index)) return [`stop ${index} is ${told}, which is stop ${stop.dataset.stop ?? 'none'} as it is read`];
  const wrong = [];
  const { outlineStyle, outlineWidth } = getComputedStyle(stop);
  if (outlineStyle === 'none' || parseFloat(outlineWidth) < 2) wrong.push(`${told} does not show that it has the focus`);
  const { left, top, right, bottom } = stop.getBoundingClientRect();
  const middle = [(Math.max(left, 0) + Math.min(right, innerWidth)) / 2, (Math.max(top, 0) + Math.min(bottom, innerHeight)) / 2];
  const above = document.elementFromPoint(...middle);
  if (!above || !(stop.contains(above) || above.contains(stop))) wrong.push(`${told} has the focus behind ${above?.className || above?.tagName}`);
  return wrong;
}
