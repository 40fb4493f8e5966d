// The steward's figures: the same numbers as the command's, on one sheet of paper; the log as files; rounds for an inspector;
// codes for the walls, each read back by ZBar from the printed page; a round ticked where its code hangs.

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { arrive, heardAll, joined } from './acts.js';
import { readByZbar } from './codes.js';
import { startHub, sweepbell } from './hub.js';
import { picturesOf, printed, sheets, textOf } from './paper.js';
import { openPhone } from './phone.js';
import { hubLines, said } from './record.js';

const FOLDER = process.env.PICTURES_OF_FIGURES ?? 'results/pictures';
const SHOP = 'hub/demo/shop.toml';

let hub;
// Whatever is written for people to look at.
mkdirSync(FOLDER, { recursive: true });
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

async function steward(browser, options) {
  const marit = await openPhone(browser, hub, options);
  await joined(marit, 'Marit');
  return marit;
}

function log() {
  const { stdout } = sweepbell('export', '--demo', '--data', hub.dataDir);
  const file = join(hub.dataDir, 'log.jws');
  writeFileSync(file, stdout);
  return file;
}

function figures(...words) {
  const { status, stdout, stderr } = sweepbell('figures', SHOP, log(), ...words);
  expect(status, stderr).toBe(0);
  return stdout;
}

// The cells of a table, row by row.
async function lines(phone, caption) {
  const rows = phone.page.locator('table', { has: phone.page.locator('caption', { hasText: new RegExp(`^${caption}$`) }) }).locator('tbody tr:not(.drawn)');
  return rows.evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
}

// The same by the first of each row.
async function cells(phone, caption) {
  return Object.fromEntries((await lines(phone, caption)).map(([first, ...rest]) => [first, rest]));
}

const hours = (minutes) => (minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`);

test('figures are those of the command, in tables, and one sheet of paper', async ({ browser }) => {
  const marit = await steward(browser);
  await marit.go('Book');
  await marit.page.getByRole('link', { name: /^Figures/ }).tap();
  await marit.hears('Counted on this phone, from all of the log that it has been told.');
  await marit.tap('All that is kept');
  const told = JSON.parse(figures());
  expect(told.sessions.begun).toBeGreaterThan(50);
  // The log comes to a phone that has just joined in several answers.
  await expect.poll(() => cells(marit, 'Sessions'), { timeout: 30_000 }).toEqual({
    Sessions: [String(told.sessions.begun)],
    People: [String(told.sessions.people)],
    'Time in the rooms': [hours(told.sessions.minutes)],
  });
  expect(await cells(marit, 'How rooms were left')).toEqual({
    'All done': [String(told.sweeps.complete)],
    'Something left': [String(told.sweeps.incomplete)],
    'Of these, never swept': [String(told.sweeps.not_begun)],
  });
  expect(await cells(marit, 'Buddies and fire watches')).toEqual({
    'Uses that ask for a buddy': [String(told.cover.uses), hours(told.cover.minutes)],
    'Gaps in cover': [String(told.cover.gaps), hours(told.cover.gap_minutes)],
    'Fire watches needed': [String(told.watches.needed), ''],
    'Kept to their end': [String(told.watches.kept), ''],
    'Cut short': [String(told.watches.needed - told.watches.kept), hours(told.watches.cut_short_minutes)],
  });
  // Twelve machines by name, the rest in one line.
  const most = told.machines.toSorted((a, b) => b.minutes - a.minutes);
  const rest = most.slice(12).reduce((sum, { uses, minutes }) => ({ uses: sum.uses + uses, minutes: sum.minutes + minutes }), { uses: 0, minutes: 0 });
  const shown = [...most.slice(0, 12), rest].map(({ uses, minutes }) => [String(uses), hours(minutes)]);
  expect(Object.values(await cells(marit, 'Hours by machine'))).toEqual(shown);
  expect(Object.values(await cells(marit, 'The reserve against reality')).map(([sweeps]) => Number(sweeps))).toEqual(told.reserve.late);
  expect((await lines(marit, 'Rounds')).map(([, ...counts]) => counts)).toEqual(told.rounds.map(({ done, late }) => [String(done), String(late)]));

  for (const [theme, width, height] of [['dark', 390, 844], ['light', 390, 844], ['dark', 844, 390], ['light', 1280, 800]]) {
    await marit.page.emulateMedia({ colorScheme: theme });
    await marit.page.setViewportSize({ width, height });
    const body = marit.page.locator('.screen-body');
    for (const [part, top] of [['top', 0], ['middle', 1400], ['end', 100000]]) {
      await body.evaluate((element, to) => element.scrollTo(0, to), top);
      await marit.page.screenshot({ path: `${FOLDER}/figures-${theme}-${width}-${part}.png` });
    }
  }
  for (const [reach, format] of [['All that is kept', 'A4'], ['All that is kept', 'Letter'], ['This month', 'A4']]) {
    await marit.tap(reach);
    await marit.hears('Hours by machine');
    const pdf = await printed(marit, format);
    writeFileSync(`${FOLDER}/figures-${format}.pdf`, pdf);
    expect(sheets(pdf), `${reach} on ${format}`).toBe(1);
    const text = textOf(pdf);
    for (const words of ['Canal Yard', 'Demo data: shop, members and log are invented.', 'It is not a safety device.', 'In danger: stop, leave, call the emergency number.', 'Hours by machine', 'Busy hours', 'Rounds']) {
      expect(text).toContain(words);
    }
    expect(text).not.toContain('Take the log along');
    if (reach === 'All that is kept') expect(text).toContain(`Sessions ${told.sessions.begun}`);
    writeFileSync(`${FOLDER}/figures-${format}.png`, picturesOf(pdf, 90)[0]);
  }
  await marit.close();
});

test('the log is taken along as files, by a steward alone', async ({ browser }) => {
  const marit = await steward(browser);
  await marit.open('/book/figures');
  await marit.hears('Counted on this phone');
  for (const [name, file, words] of [
    ['Sessions (table)', 'sessions.csv', ['--csv', 'sessions']],
    ['What was found (table)', 'finds.csv', ['--csv', 'finds']],
    ['Every entry, a line each (JSON lines)', 'log.jsonl', ['--jsonl']],
    ['Sessions and rounds due (calendar)', 'calendar.ics', ['--ical']],
  ]) {
    const [download] = await Promise.all([marit.page.waitForEvent('download'), marit.page.getByRole('link', { name }).click()]);
    expect(download.suggestedFilename()).toBe(file);
    const chunks = [];
    for await (const chunk of await download.createReadStream()) chunks.push(chunk);
    expect(Buffer.concat(chunks).toString()).toBe(figures(...words));
  }
  const noor = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  for (const path of ['/api/export/log.jsonl', '/api/export/incidents.csv']) {
    expect(await noor.page.evaluate(async (path) => (await fetch(path)).status, path)).toBe(403);
  }
  await noor.open('/book/figures');
  await noor.hears('This page is for whoever looks after the shop.');
  await Promise.all([marit.close(), noor.close()]);
});

test('without the hub the phone counts what it has been told', async ({ browser }) => {
  const marit = await steward(browser);
  await arrive(marit, 'Forge');
  await heardAll(marit);
  await marit.settled();
  await marit.offline();
  await marit.open('/book/figures');
  await expect.poll(async () => Number((await cells(marit, 'Sessions'))['Still open'])).toBe(1);
  await marit.offline(false);
  await marit.close();
});

test('rounds are printed for an inspector, with every time and its clause', async ({ browser }) => {
  const marit = await steward(browser);
  await marit.open('/book/rounds');
  await marit.hears('Counted on this phone');
  const bin = marit.page.locator('.round-kept', { hasText: 'Take the oily bin out' });
  await expect(bin).toContainText('29 CFR 1910.106(e)(9)(iii)');
  await expect(bin).toContainText('Forge. Every day.');
  const done = figures('--csv', 'rounds').split('\r\n').filter((line) => line.includes(',oily_bin_forge,'));
  await expect(bin.locator('tbody tr')).toHaveCount(done.length, { timeout: 30_000 });
  const overdue = marit.page.locator('.round-kept', { hasText: 'Pedestal grinder' });
  await expect(overdue).toContainText('Late: it was due');
  const pdf = await printed(marit);
  writeFileSync(`${FOLDER}/rounds.pdf`, pdf);
  const text = textOf(pdf);
  for (const words of ['Canal Yard', 'Demo data', '29 CFR 1910.157(e)(2): visual, monthly', 'It is not a safety device.']) expect(text).toContain(words);
  picturesOf(pdf, 70).slice(0, 2).forEach((picture, index) => writeFileSync(`${FOLDER}/rounds-sheet-${index + 1}.png`, picture));
  await marit.page.screenshot({ path: `${FOLDER}/rounds-page-dark.png` });
  await marit.close();
});

test('every code that is printed is read back by ZBar as the address beside it', async ({ browser }) => {
  const marit = await steward(browser);
  await marit.open('/book/print');
  await marit.hears(`The codes lead to ${hub.origin}.`);
  const read = new Set();
  const wanted = new Set();
  for (const kind of ['Doors', 'Machines', 'Stops', 'Rounds']) {
    await marit.tap(kind);
    const cards = await marit.page.locator('.posted-address').allTextContents();
    cards.forEach((address) => wanted.add(address));
    const pdf = await printed(marit);
    expect(sheets(pdf), kind).toBe(Math.ceil(cards.length / 6));
    const text = textOf(pdf);
    expect(text).toContain('Supports judgement; makes no machine safe.');
    expect(text).toMatch(/In danger: stop, leave, call \S+/);
    // A sheet is looked at more than once, as by a hand that is not still: at two sizes.
    for (const dotsPerInch of [200, 300]) {
      for (const picture of picturesOf(pdf, dotsPerInch, 'pgm')) for (const address of readByZbar(picture, 'pgm')) read.add(address);
    }
    writeFileSync(`${FOLDER}/print-${kind.toLowerCase()}.png`, picturesOf(pdf, 80)[0]);
  }
  expect(wanted.size).toBeGreaterThan(40);
  expect([...read].sort()).toEqual([...wanted].sort());
  await marit.page.screenshot({ path: `${FOLDER}/print-page-dark.png` });
  await marit.close();
});

test('a round is ticked by opening its code where it hangs, outside a session too', async ({ browser }) => {
  const noor = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  const before = hubLines(hub).length;
  await noor.open('/r/wheel_gaps');
  await noor.hears('Pedestal grinder: rest within');
  await noor.page.screenshot({ path: `${FOLDER}/round-sheet-dark.png` });
  noor.taps = 0;
  await noor.tap('I have done it, here');
  expect(noor.taps).toBe(1);
  await expect(noor.page).toHaveURL(/\/room$/);
  await expect(noor.page.locator('li', { hasText: 'Pedestal grinder' })).toContainText('Last done by Noor');
  await expect.poll(() => hubLines(hub).slice(before).map(said).filter(({ what, round }) => what === 'round_done' && round === 'wheel_gaps')).toHaveLength(1);
  await noor.open('/r/nothing');
  await noor.hears(/no (such )?round/i);
  await noor.close();
});
