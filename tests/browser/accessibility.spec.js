// Every screen in every state (states.js), in every theme and at every size (fit.js): WCAG 2.2 AA by axe-core, the sizes and
// places that a workshop asks for, and the keyboard's way through.

import { expect, test } from '@playwright/test';
import { expectFitEverywhere } from './fit.js';
import { expectFocusInOrder } from './focus.js';
import { startHub } from './hub.js';
import { STORIES, walk } from './states.js';
import { writeTree } from './tree.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 240_000 });

test('no two states have one name', () => {
  const names = STORIES.flatMap(({ rows }) => rows.map(({ state }) => state));
  expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
});

for (const story of STORIES) {
  test(story.name, async ({ browser }) =>
    walk(browser, hub, story, async (phone, state) => {
      await writeTree(phone, state);
      await expectFitEverywhere(phone, state);
      await expectFocusInOrder(phone, state);
    }));
}
