// Why? Every time that a session shows, and every refusal, answers with one touch: the rule, the numbers, the source. What
// a phone says of a plan is what `sweepbell plan --explain` says of it, word for word.

import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { arrive, joined, machine, startMachine, startSweep } from './acts.js';
import { expectFit } from './fit.js';
import { startHub, sweepbell } from './hub.js';
import { openPhone } from './phone.js';
import { phoneLines, said } from './record.js';

const SHOP = 'hub/demo/shop.toml';
const FLOOR_MINUTES = 10;
const MINUTE_MS = 60_000;
const PICTURES = process.env.PICTURES_OF_WHY ?? 'results/pictures';

// A shop without a log: nothing has been learned yet, as in a plan that is asked for by itself.
let hub;
test.beforeAll(async () => (hub = await startHub({ shop: SHOP, members: 'hub/demo/members.toml' })));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 90_000 });

const sheet = (phone) => phone.page.locator('dialog[open]');

// The paragraphs of the sheet, each as its lines. They are reckoned when they are asked for, and come a little after the sheet.
async function paragraphs(phone) {
  const reasons = sheet(phone).locator('.reasons');
  await expect(reasons.first()).toBeVisible();
  const texts = await reasons.allInnerTexts();
  return texts.map((text) => text.split('\n'));
}

// One touch opens it; it is looked at, and closed.
async function why(phone, button, picture) {
  const before = phone.taps;
  await phone.tap(button);
  expect(phone.taps - before).toBe(1);
  await expect(sheet(phone).getByRole('heading')).toBeVisible();
  const told = await paragraphs(phone);
  await expectFit(phone, `why: ${button}`);
  if (picture) await pictures(phone, picture);
  await phone.tap('Back');
  return told;
}

async function pictures(phone, what) {
  for (const colorScheme of ['dark', 'light']) {
    await phone.page.emulateMedia({ colorScheme });
    await phone.page.screenshot({ path: `${PICTURES}/${what}-${colorScheme}.png` });
  }
  await phone.page.setViewportSize({ width: 844, height: 390 });
  await phone.page.screenshot({ path: `${PICTURES}/${what}-level.png` });
  await phone.page.setViewportSize({ width: 390, height: 844 });
  await phone.page.emulateMedia({ colorScheme: null });
}

// What the command says of the plan that this phone's session has now, but for "Free at", which moves with the second.
async function explained(phone) {
  const lines = (await phoneLines(phone)).map(({ jws }) => said(jws));
  const entered = lines.find(({ what }) => what === 'entered');
  const started = lines.filter(({ what }) => what === 'machine_started');
  const until = (at) => (Date.parse(entered.out_by) - Date.parse(at)) / MINUTE_MS - FLOOR_MINUTES;
  const uses = started.map((line) => ({ machine: line.machine, minutes: until(line.at) }));
  const plan = { room: entered.room, out_by: entered.out_by, crew: 1, last_out: true, hot_work: true, uses };
  const file = join(hub.dataDir, 'plan.json');
  await writeFile(file, JSON.stringify(plan));
  const { status, stdout, stderr } = sweepbell('plan', '--explain', SHOP, file);
  expect(status, stderr).toBe(0);
  return stdout.trim().split('\n\n').map((text) => text.split('\n').map((line) => line.trim()));
}

test('every time on Bench and Sweep says why in one touch', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Forge');
  await startMachine(phone, 'Angle grinder');
  await pictures(phone, 'why-bench');

  const sweep = await why(phone, /^Sweep from .* why\?/, 'why-sweep');
  const spark = await why(phone, /^Last spark .* why\?/, 'why-spark');
  const watch = await why(phone, /^Watch until .* why\?/);
  const free = await why(phone, /^Free, if you sweep now .* why\?/);
  const all = await why(phone, 'Why these times?', 'why-all');

  await test.step('rule, numbers, source', async () => {
    expect(sweep.map(([first]) => first.split(':')[0])).toEqual(['Sweep from', 'First bell', 'Taken for granted']);
    expect(sweep[0]).toContainEqual(expect.stringMatching(/^\d+ min\. Angle grinder: Unplug it\..*\(rulebook, for \d+ min of use\)$/));
    expect(sweep[1]).toContain('10 min before the sweep.');
    expect(spark[0]).toContain('The watch takes one person 30 min.');
    expect(spark[0].at(-1)).toMatch(/^Source: .*29 CFR 1910\.252\(a\)\(2\)\(iii\)\(B\)/);
    expect(watch[0][0]).toMatch(/^Watch until: \d+:\d\d$/);
    expect(free[0]).toContainEqual(expect.stringMatching(/^Reckoned from \d+:\d\d\.$/));
    for (const [, , ...rest] of [sweep[0], sweep[1], spark[0], watch[0], free[0]]) {
      expect(rest.length).toBeGreaterThan(1);
      expect(rest.at(-1)).toMatch(/^Source: ./);
    }
  });

  await test.step('the command says the same of the same plan', async () => {
    const command = await explained(phone);
    const names = (paragraph) => paragraph[0].split(':')[0];
    const told = all.filter((paragraph) => !['Free at', 'Out by', 'Taken for granted'].includes(names(paragraph)));
    expect(told.map(names)).toEqual(['Sweep from', 'First bell', 'Last spark', 'Watch until']);
    for (const paragraph of told) expect(command).toContainEqual(paragraph);
  });

  await test.step('out-by says it where it is moved', async () => {
    await phone.tap(/^Out by .* move/);
    expect((await paragraphs(phone))[0]).toContainEqual(expect.stringMatching(/^\d+:\d\d at the latest: no session is longer\.$/));
    await expectFit(phone, 'moving out-by');
    await phone.tap('Back');
  });

  await phone.tap('Stop: Angle grinder');
  await expect(machine(phone, 'Angle grinder')).not.toContainText('runs,');
  await startSweep(phone);
  expect((await why(phone, /^Done by .* why\?/))[0][0]).toMatch(/^Free at: /);
  expect((await why(phone, 'Why until then?'))[0]).toContainEqual(expect.stringMatching(/^Hot work ended at \d+:\d\d\.$/));
  await phone.close();
});

test('a refusal says why: the rule, what went in, the source', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await arrive(phone, 'Fitting');
  await phone.tap('Why not?: Mill');
  await phone.hears('Somebody in the room has to be there for you all the while.');
  await expect(sheet(phone)).toContainText('A word holds 15 min.');
  await expect(sheet(phone)).toContainText(/Source: rulebook, machine\.buddy, renew_minutes; 29 CFR 1915\.84/);
  await expectFit(phone, 'why a refusal');
  await pictures(phone, 'why-not');
  await phone.tap('Back');
  await phone.close();
});
