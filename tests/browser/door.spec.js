// At the door others come and go; whoever stands there with the camera open is not disturbed.

import { expect, test } from '@playwright/test';
import { arrive, joined } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('who comes in meanwhile is counted, and the camera stays open', async ({ browser }) => {
  const [waiting, coming] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(waiting, 'Ilse');
  await joined(coming, 'Femke');
  const fitting = waiting.page.getByRole('button', { name: /^Fitting/, includeHidden: true });
  const before = await fitting.textContent();
  await waiting.tap('Scan the door code');
  await waiting.page.getByLabel('Or type the name on the door').fill('fit');
  await arrive(coming, 'Fitting');
  await expect(fitting).not.toHaveText(before);
  await expect(waiting.page.getByLabel('Or type the name on the door')).toHaveValue('fit');
  await waiting.close();
  await coming.close();
});
