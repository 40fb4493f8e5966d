// The accessibility check that each screen passes as part of its ordinary test: WCAG 2.2 AA by axe-core, and what
// axe-core calls good practice besides: landmarks, headings in order.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { expect } from '@playwright/test';

const AXE = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa', 'best-practice'];

// Everything that is wrong, a line each: the rule, what it asks, and where. Without `rules` all of them are asked.
export async function violations(page, rules = null) {
  // Evaluated by the debugger, so the page's own content policy stays as strict as it is served.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  const runOnly = rules ? { type: 'rule', values: rules } : { type: 'tag', values: TAGS };
  const found = await page.evaluate(
    async (runOnly) => {
      const { violations } = await globalThis.axe.run(document, { runOnly, resultTypes: ['violations'], preload: false });
      return violations.map(({ id, help, nodes }) => ({ id, help, where: nodes.map(({ target, any }) => `${target.join(' ')}${any.map(({ message }) => `: ${message}`)}`) }));
    },
    runOnly,
  );
  return found.flatMap(({ id, help, where }) => where.map((target) => `${id}: ${help} (${target})`));
}

export async function expectAccessible(page) {
  expect(await violations(page)).toEqual([]);
}
