// Two tabs of one phone write one log: neither loses the other's lines, and neither shows what is no longer so.

import { expect, test } from '@playwright/test';
import { arrive, joined, machine } from './acts.js';
import { startHub } from './hub.js';
import { Phone, openPhone } from './phone.js';
import { hubLines, phoneLines, said, verified } from './record.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('two tabs act at once and the log stays one chain', async ({ browser }) => {
  const one = await openPhone(browser, hub);
  await joined(one, 'Noor');
  await arrive(one, 'Fitting');
  const two = new Phone(one.context, await one.context.newPage(), hub);
  await two.open('/bench');
  await two.hears('Machines');

  for (const [tab, name] of [[one, 'Pillar drill'], [two, 'Pedal shear']]) await tab.tap(`Start: ${name}`);
  // Whoever is quicker, both are asked for in the same moment; one may be told to look again.
  await Promise.all([one, two].map((tab) => tab.page.evaluate(() => document.querySelector('dialog .big-button').click())));
  for (const [tab, name] of [[one, 'Pillar drill'], [two, 'Pedal shear']]) await startedAtLast(tab, name);
  for (const tab of [one, two]) {
    for (const name of ['Pillar drill', 'Pedal shear']) await expect(machine(tab, name)).toContainText('runs,');
  }

  const lines = await phoneLines(one);
  expect(lines.map(({ seq }) => seq)).toEqual(lines.map((_, at) => at + 1));
  expect(lines.map(({ jws }) => said(jws).what).filter((what) => what === 'machine_started')).toHaveLength(2);
  await one.go('Book');
  await one.hears('Everything is with the hub.');
  const atHub = hubLines(hub);
  expect(atHub).toEqual(expect.arrayContaining(lines.map(({ jws }) => jws)));
  expect(await verified(hub, atHub)).toMatchObject({ ok: true, problems: [] });
  await one.close();
});

// It runs, or its tab says that the other was quicker and it is pressed again.
async function startedAtLast(tab, name) {
  const [runs, quicker] = [machine(tab, name).getByText(/runs,/), tab.page.getByText('Another tab was quicker, so this was not done.')];
  await expect(runs.or(quicker).first()).toBeVisible();
  if (await runs.isVisible()) return;
  await tab.tap('Got it');
  await tab.tap(`Start: ${name}`);
  await tab.tap('All so. Start');
}
