// What members do, as they do it: join, arrive, ask for a buddy, be one, close down.

import { expect } from '@playwright/test';
import { hold } from './camera.js';
import { shownCode } from './codes.js';

// Joins by a typed code, as this member. The phone stands at the question for the code.
export async function join(phone, name) {
  await handIn(phone, phone.hub.codeFor(name.toLowerCase()));
  // A one-time code is for one member, and asks; the demo's lets everybody pick.
  await phone.tap(phone.hub.joinCode ? name : `Join as ${name}`);
}

// Types a join code.
export async function handIn(phone, code) {
  await phone.page.getByLabel(phone.says('Join code')).fill(code);
  phone.taps += 1;
  await phone.tap('Join');
}

// Joins and is left at Door.
export async function joined(phone, name) {
  await phone.open('/');
  await join(phone, name);
  await phone.hears('At the door');
}

// The log was heard to its end, and the hub holds what was done here.
export async function heardAll(phone) {
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  await phone.hearsNot('This phone has not heard the whole log yet.');
  await phone.go('Door');
}

// A page of Book, by its name.
export async function bookPage(phone, name) {
  await phone.go('Book');
  phone.taps += 1;
  await phone.page.locator('.page-way').filter({ has: phone.page.getByText(phone.says(name), { exact: true }) }).tap();
  await expect(phone.page.getByRole('heading', { level: 1 })).toHaveText(phone.says(name));
}

// A row of a list, by its name.
export const rowOf = (phone, name) => phone.page.locator('main li.row').filter({ has: phone.page.locator('.row-name', { hasText: name }) }).first();

// A touch in the sheet that is open.
export const inSheet = (phone, name) => phone.page.locator('dialog').getByRole('button', { name: phone.says(name) }).tap();

// More is said of something, in the sheet for it.
export async function sayMore(phone, act, words) {
  await phone.page.locator('dialog textarea').fill(words);
  await inSheet(phone, act);
  await expect(phone.page.locator('dialog')).toHaveCount(0);
}

// A phone comes to People, and looks at somebody there.
export async function lookAt(phone, name) {
  await phone.go('Book');
  await phone.page.getByRole('link', { name: phone.says('People', false) }).tap();
  await phone.page.getByLabel(phone.says('Name')).fill(name);
  phone.taps += 2;
  await phone.page.locator('button.row-act', { hasText: name }).first().tap();
  await expect(phone.page.getByRole('heading', { name })).toBeVisible();
}

// A steward's phone makes a code for somebody.
export async function codeFor(marit, name) {
  await lookAt(marit, name);
  await marit.tap('Look up codes and phones');
  await marit.tap(`Code for ${name}`);
}

// Says yes to each statement, one by one.
export async function attestAll(phone, of = 3) {
  for (let step = 1; step <= of; step++) {
    await phone.hears(`${step} of ${of}`);
    await phone.tap('Yes, it is so');
  }
  await phone.hears('When must you be out?');
}

// From Door into a room, out by the time that stands ready.
export async function arrive(phone, room) {
  await phone.tap(new RegExp(`^${room}`));
  await attestAll(phone);
  await phone.tap(/^Start, out by/);
  await atBench(phone);
}

export async function atBench(phone) {
  await expect(phone.page).toHaveURL(/\/bench$/);
  await expect(phone.page.getByRole('heading', { name: phone.says('Machines') })).toBeVisible();
}

// A machine's row on Bench.
export function machine(phone, name) {
  return phone.page.locator('section.machines li').filter({ has: phone.page.locator('.row-name', { hasText: phone.says(new RegExp(`^${name}$`)) }) });
}

// Starts a machine that may be started.
export async function startMachine(phone, name) {
  await phone.tap(`Start: ${name}`);
  await phone.tap('All so. Start');
  await expect(machine(phone, name)).toContainText(phone.says(/runs,/));
}

// One phone's screen is held before another's camera.
export async function showTo(from, to) {
  await hold(to, await shownCode(from));
}

// The operator asks, the buddy scans, confirms and shows the answer, the operator scans that: no network needed.
// The operator's sheet with the code is open.
export async function coverByEye(operator, buddy, act = 'I am in the room') {
  await scanAsk(operator, buddy);
  await buddy.tap(act);
  await showTo(buddy, operator);
  await operator.tap('Scan their answer');
}

// The buddy's phone, at Door in a session, scans what the operator's shows.
export async function scanAsk(operator, buddy) {
  await showTo(operator, buddy);
  await buddy.go('Door');
  await buddy.tap('Scan to be a buddy');
  await buddy.hears(/asks you to be their buddy/);
}

// Closes a bell by its main act.
export async function hearBell(phone, heading, act) {
  const bell = phone.page.locator('dialog.bell');
  await expect(bell).toBeVisible();
  await expect(bell.getByRole('heading', { name: phone.says(heading) })).toBeVisible();
  await phone.tap(act);
  await expect(bell).toBeHidden();
}

// Ticks the chore whose turn it is.
export async function tickNext(phone) {
  const left = phone.page.getByRole('checkbox', { checked: false });
  await expect(phone.page.locator('.chore-row.is-next')).toBeVisible();
  const before = await left.count();
  // The row has come to its place, as a thumb waits for it to.
  await phone.framed();
  phone.taps += 1;
  await phone.page.locator('.chore-row.is-next').tap();
  await expect(left).toHaveCount(before - 1);
}

// Begins the sweep, alone. From Bench or Sweep.
export async function startSweep(phone) {
  await phone.tap('Start sweeping');
  await phone.tap('Just me');
  await expect(phone.page.getByRole('heading', { name: phone.says(/^Sweep, /) })).toBeVisible();
}
