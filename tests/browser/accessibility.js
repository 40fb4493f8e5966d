// The accessibility check that each screen passes as part of its ordinary test: WCAG 2.2 AA by axe-core.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { expect } from '@playwright/test';

const AXE = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

// Fails with one line for each problem: the rule, what it asks, and where.
export async function expectAccessible(page) {
  // Evaluated by the debugger, so the page's own content policy stays as strict as it is served.
  await page.evaluate(AXE);
  const { violations } = await page.evaluate((tags) => globalThis.axe.run(document, { runOnly: tags }), TAGS);
  const lines = violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help} (${node.target.join(' ')})`));
  expect(lines).toEqual([]);
}
