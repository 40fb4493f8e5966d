// Whether a screen can be read and touched in a workshop: axe-core, and what the shop asks beyond it.
//
// Targets of 64 px and main acts of 96 px, for gloves and wet hands; text of 18 px at least; nothing that needs
// scrolling sideways. Only what is in front is judged: a sheet or a bell makes what lies under it inert.

import { expect } from '@playwright/test';
import { expectAccessible } from './accessibility.js';

export const THEMES = ['dark', 'light'];
// A small phone held upright, a usual one, and one lying on its side.
export const SIZES = [
  { width: 320, height: 640 },
  { width: 390, height: 844 },
  { width: 740, height: 360 },
];

// One screen as it stands: sizes of targets and text, sideways scrolling, WCAG 2.2 AA.
export async function expectFit(phone, where) {
  expect(await misfits(phone.page), where).toEqual([]);
  await expectAccessible(phone.page);
}

// One screen in both themes and at all sizes; the phone is left as it was.
export async function expectFitEverywhere(phone, where) {
  const own = phone.page.viewportSize();
  for (const size of SIZES) {
    await phone.page.setViewportSize(size);
    expect(await misfits(phone.page), `${where} at ${size.width} by ${size.height}`).toEqual([]);
  }
  await phone.page.setViewportSize(own);
  for (const theme of THEMES) {
    await phone.page.emulateMedia({ colorScheme: theme });
    await expectAccessible(phone.page);
  }
  await phone.page.emulateMedia({ colorScheme: null });
}

async function misfits(page) {
  return page.evaluate(() => {
    const [TARGET_PX, MAIN_PX, TEXT_PX, SLACK_PX] = [64, 96, 18, 0.5];
    const front = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
    const found = [];
    const told = (element) => `${element.tagName.toLowerCase()}.${[...element.classList].join('.')} "${(element.textContent || element.getAttribute('name') || '').trim().slice(0, 40)}"`;
    const seen = (element) => element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && element.getClientRects().length > 0;

    for (const target of front.querySelectorAll('a[href], button, input, select, textarea, [role=checkbox]')) {
      if (!seen(target)) continue;
      const { height } = target.getBoundingClientRect();
      const least = target.matches('.big-button, .bell-main') ? MAIN_PX : TARGET_PX;
      if (height < least - SLACK_PX) found.push(`${told(target)} is ${height.toFixed(1)} px high, not ${least}`);
    }
    const words = document.createTreeWalker(front, NodeFilter.SHOW_TEXT);
    while (words.nextNode()) {
      const element = words.currentNode.parentElement;
      if (!words.currentNode.data.trim() || !seen(element)) continue;
      const box = element.getBoundingClientRect();
      if (box.width <= 1 || box.height <= 1) continue;
      const drawn = element instanceof SVGGraphicsElement ? element.getScreenCTM() : { c: 0, d: 1 };
      const scale = Math.hypot(drawn.c, drawn.d);
      const size = parseFloat(getComputedStyle(element).fontSize) * scale;
      if (size < TEXT_PX - SLACK_PX) found.push(`${told(element)} is written in ${size.toFixed(1)} px`);
    }
    const wide = [document.documentElement, front, ...front.querySelectorAll('.screen, .screen-body, .sheet-body, .acts, .bell-body')];
    for (const element of new Set(wide)) {
      if (element.scrollWidth > element.clientWidth + 1) found.push(`${told(element)} scrolls sideways: ${element.scrollWidth} in ${element.clientWidth} px`);
    }
    return found;
  });
}
