// A month at Canal Yard, day by day, on five phones: somebody new is inducted and signed off, works and sweeps; another leaves a
// mess, which is found, traced and settled; a machine is out and comes back; something nearly happens; the rules are changed; and
// at its end the steward prints one sheet, on which every number is what was done here and nothing else.
//
// All phones' clocks are a month behind at first, and are moved on together, so that the last day is today.

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { arrive, bookPage, inSheet, joined, lookAt, rowOf, sayMore, showTo, startMachine, startSweep, tickNext } from './acts.js';
import { write } from './field.js';
import { startHub, sweepbell } from './hub.js';
import { picturesOf, printed, sheets, textOf } from './paper.js';
import { openPhone, pass } from './phone.js';
import { hubLines, said, verified } from './record.js';
import { SHOP, walkAll } from './stops.js';

const MONTH_DAYS = 28;
const DAY_MINUTES = 24 * 60;
const FOLDER = process.env.PICTURES_OF_MONTH ?? 'results/pictures';
const WAIT = { timeout: 15_000 };

let hub;
mkdirSync(FOLDER, { recursive: true });
test.beforeAll(async () => (hub = await startHub({ shop: SHOP, members: 'hub/demo/members.toml' })));
test.afterAll(async () => hub.dispose());

// What the hub holds, by kind.
function kinds() {
  const counts = {};
  for (const { what } of hubLines(hub, []).map(said)) counts[what] = (counts[what] ?? 0) + 1;
  return counts;
}

// The rows of a table of the figures, by the first cell of each.
async function cells(phone, caption) {
  const rows = phone.page.locator('table', { has: phone.page.locator('caption', { hasText: new RegExp(`^${caption}$`) }) }).locator('tbody tr:not(.drawn)');
  return Object.fromEntries(await rows.evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)).map(([first, ...rest]) => [first, rest])));
}

test('a month, from an induction to the monthly sheet', async ({ browser }) => {
  test.setTimeout(300_000);
  const behindMs = MONTH_DAYS * DAY_MINUTES * 60_000;
  const phones = {};
  for (const who of ['Marit', 'Tess', 'Bram', 'Noor', 'Ilse']) {
    phones[who] = await openPhone(browser, hub, { behindMs });
    await joined(phones[who], who);
  }
  const { Marit: marit, Tess: tess, Bram: bram, Noor: noor, Ilse: ilse } = phones;
  const all = Object.values(phones);
  let day = 0;
  const until = async (next) => {
    await pass(all, { minutes: (next - day) * DAY_MINUTES });
    day = next;
  };

  await test.step('day 0: Tess walks every stop, is inducted, and is signed off on grinding', async () => {
    await tess.tap(/^Forge/);
    await tess.hears('Not yet');
    await walkAll(tess);
    await bookPage(marit, 'People');
    await showTo(tess, marit);
    await marit.tap("Scan somebody's walk");
    await marit.tap('Induct them');
    await marit.hears(/^until 20\d\d-\d\d-\d\d$/);
    await lookAt(marit, 'Tess');
    await marit.tap('Sign off: Grinding');
    for (const line of await marit.page.locator('button.tick').all()) await line.tap();
    await marit.tap('We did it all: sign');
    // The hub makes a card of it, and no code is shown to anybody.
    await bookPage(tess, 'What I may run');
    await expect(tess.page.locator('main li.row').filter({ hasText: /^Angle grinder, Pedestal grinder/ })).toContainText(/until 20\d\d-/, WAIT);
  });

  await test.step('day 2: her first evening; swept, watched, left clean', async () => {
    await until(2);
    await tess.go('Door');
    await arrive(tess, 'Forge');
    await startMachine(tess, 'Angle grinder');
    await pass(all, { minutes: 40 });
    await tess.tap('Stop: Angle grinder');
    await startSweep(tess);
    await pass(all, { minutes: 31 });
    while ((await tess.page.getByRole('checkbox', { checked: false }).count()) > 0) await tickNext(tess);
    await tess.tap('I have left it clean');
    await tess.hears('At the door');
  });

  await test.step('day 5: Bram leaves with nothing swept; the steward is told', async () => {
    await until(5);
    await arrive(bram, 'Forge');
    await startMachine(bram, 'Angle grinder');
    await pass(all, { minutes: 20 });
    await bram.tap('Stop: Angle grinder');
    await startSweep(bram);
    await bram.tap('Leave');
    await bram.tap('Leave the room');
    await bram.hears('At the door');
    await bookPage(marit, 'Today');
    await expect(rowOf(marit, /Bram/)).toBeVisible(WAIT);
    await marit.page.screenshot({ path: `${FOLDER}/month-today.png` });
  });

  await test.step('day 6: Tess finds the mess; it is traced to him, and settled kindly', async () => {
    await until(6);
    await tess.go('Door');
    await arrive(tess, 'Forge');
    await tess.tap('Found a mess');
    await inSheet(tess, 'Angle grinder');
    await tess.page.locator('dialog textarea').fill('Dust on the bench');
    await inSheet(tess, 'Note the mess');
    await bookPage(marit, 'Finds');
    const find = rowOf(marit, /^Angle grinder$/);
    await expect(find).toContainText('Bram', WAIT);
    await find.getByRole('button', { name: 'A message to ask Bram with' }).first().tap();
    await find.getByRole('button', { name: 'They were asked' }).tap();
    await find.getByRole('button', { name: 'Note how it ended' }).tap();
    await sayMore(marit, 'Seen to', 'Was called away; he swept it the next day');
    await tess.go('Sweep');
    await startSweep(tess);
    while ((await tess.page.getByRole('checkbox', { checked: false }).count()) > 0) await tickNext(tess);
    await tess.tap('I have left it clean');
    await tess.hears('At the door');
  });

  await test.step('days 9 to 14: the lathe is out, waits for a part, is mended and checked', async () => {
    await until(9);
    await noor.go('Room');
    await noor.tap('Tag a machine out');
    await inSheet(noor, 'Long bed lathe');
    await noor.page.locator('dialog textarea').fill('Chuck guard bent');
    await inSheet(noor, 'Tag out: Long bed lathe');
    await noor.hears('Chuck guard bent');
    await until(14);
    await bookPage(ilse, 'Repairs');
    await rowOf(ilse, /^Long bed lathe$/).getByRole('button', { name: 'Say more' }).tap();
    await sayMore(ilse, 'It is mended', 'Straightened, and lined up');
    await bookPage(marit, 'Repairs');
    await expect(rowOf(marit, /^Long bed lathe$/)).toContainText('Mended by Ilse', WAIT);
    await rowOf(marit, /^Long bed lathe$/).getByRole('button', { name: 'Check it and give it back' }).tap();
    await inSheet(marit, 'All so. It may be used again');
    await expect(rowOf(marit, /^Long bed lathe$/)).toContainText('out once');
  });

  await test.step('day 16: something nearly happens, is told, and something is changed', async () => {
    await until(16);
    await tess.go('Room');
    await tess.tap('Tell the steward something');
    await tess.page.locator('dialog textarea').fill('A disc burst behind its guard');
    await inSheet(tess, 'Near miss');
    await inSheet(tess, 'No');
    await inSheet(tess, 'Put it in the log');
    await bookPage(marit, 'Incidents');
    const told = rowOf(marit, 'A disc burst behind its guard');
    await expect(told).toBeVisible(WAIT);
    for (const [label, words] of [['This was changed', 'Discs are dated now'], ['Seen to', '']]) {
      await told.getByRole('button', { name: 'Follow it up' }).tap();
      await sayMore(marit, label, words);
    }
  });

  await test.step('day 20: the rules ask for more time, and whoever works next has it', async () => {
    await until(20);
    await bookPage(marit, 'Rules');
    const text = marit.page.locator('#rules-text');
    await expect(text).toHaveValue(/\[shop\]/, WAIT);
    await write(text, (all) => all.replace(/^floor_minutes = \d+/m, 'floor_minutes = 30'));
    await marit.hears(/reserve, floor_minutes: 30, was/);
    await marit.page.getByLabel('Why, in a few words').fill('The mess of last week');
    await marit.tap('Publish these rules');
    await marit.tap('In force for everybody: publish');
    await marit.hears(/^Published as number 1/);
    await expect.poll(() => kinds().rules_published, WAIT).toBe(1);
  });

  await test.step('day 27: a round is ticked where its code hangs', async () => {
    await until(27);
    await tess.open('/r/eyewash');
    await tess.tap('I have done it, here');
    await expect(tess.page).toHaveURL(/\/room$/);
  });

  await test.step('the last day: one sheet, and every number on it is of this month', async () => {
    await until(MONTH_DAYS);
    await bookPage(marit, 'Today');
    await marit.page.screenshot({ path: `${FOLDER}/month-today-end.png` });
    await bookPage(marit, 'Figures');
    await marit.tap('All that is kept');
    await expect.poll(() => cells(marit, 'Sessions'), WAIT).toMatchObject({ Sessions: ['3'], People: ['2'] });
    expect(await cells(marit, 'How rooms were left')).toEqual({ 'All done': ['2'], 'Something left': ['1'], 'Of these, never swept': ['0'] });
    expect(await cells(marit, 'Hours by machine')).toEqual({ 'Angle grinder': ['2', expect.stringMatching(/^1 h 0\d$/)] });
    expect(await cells(marit, 'Buddies and fire watches')).toMatchObject({ 'Fire watches needed': ['2', ''], 'Kept to their end': ['1', ''], 'Cut short': ['1', expect.any(String)] });
    expect(await cells(marit, 'How it was found')).toEqual({ 'Angle grinder': ['0', '1'] });
    expect(await cells(marit, 'Tagged out')).toEqual({ 'Long bed lathe': ['1', '5.0'] });
    const done = async () => Object.values(await cells(marit, 'Rounds')).map(([times]) => times).filter((times) => times !== '0');
    await expect.poll(done, WAIT).toEqual(['1']);
    const pdf = await printed(marit);
    expect(sheets(pdf)).toBe(1);
    for (const words of ['Canal Yard', 'Sessions 3', 'Long bed lathe 1 5.0', 'It is not a safety device.']) expect(textOf(pdf)).toContain(words);
    writeFileSync(`${FOLDER}/month-sheet.png`, picturesOf(pdf, 90)[0]);
  });

  await test.step('and the log says it all, each line signed, each chain whole', async () => {
    const lines = hubLines(hub, []);
    expect(await verified(hub, lines)).toMatchObject({ ok: true, problems: [], entries: lines.length });
    expect(kinds()).toMatchObject({
      walked: 20, walk_done: 1, inducted: 1, signed_off: 1, entered: 3, left: 3, found: 1, tagged_out: 1, tag_cleared: 1, incident: 1,
      noted: 6, rules_published: 1, round_done: 1,
    });
    writeFileSync(join(hub.dataDir, 'log.jws'), lines.map((line) => `${line}\n`).join(''));
    const { status, stdout, stderr } = sweepbell('figures', SHOP, join(hub.dataDir, 'log.jws'));
    expect(status, stderr).toBe(0);
    const told = JSON.parse(stdout);
    expect([told.sessions.begun, told.sweeps.complete, told.sweeps.incomplete, told.watches.kept]).toEqual([3, 2, 1, 1]);
  });
  for (const phone of all) await phone.close();
});
