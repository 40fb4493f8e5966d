// Leaving is never blocked: what is missing is said once, plainly, and the door stays open.

import { expect, test } from '@playwright/test';
import { arrive, joined, machine, startMachine, startSweep } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { phoneLines, said } from './record.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('with sparks still fresh and nothing swept one is told, and may go', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Forge');
  await startMachine(phone, 'Angle grinder');
  await phone.tap('Stop: Angle grinder');
  await expect(machine(phone, 'Angle grinder')).not.toContainText('runs,');
  await startSweep(phone);
  await phone.tap('Leave');
  const sheet = phone.page.locator('dialog[open]');
  await expect(sheet).toContainText(/The fire watch has (29|30) minutes to go\./);
  await expect(sheet).toContainText('Stay, or ask someone to keep it for you. Embers do not know the time.');
  await expect(sheet).toContainText(/\d+ chores are left/);
  await phone.tap('Leave the room');
  await phone.hears('At the door');
  expect(said((await phoneLines(phone)).at(-1).jws).what).toBe('left');
  await phone.close();
});
