// Every screen and state, in both themes and at three sizes: WCAG 2.2 AA by axe-core, and the shop's own sizes.

import { expect, test } from '@playwright/test';
import { arrive, attestAll, joined, machine, scanAsk, startMachine, startSweep, tickNext } from './acts.js';
import { expectFitEverywhere } from './fit.js';
import { startHub } from './hub.js';
import { openPhone, passUntil } from './phone.js';
import { clockAfter, instantOf } from './shop_time.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 90_000 });

// Opens what an act opens, looks at it, and closes it again.
async function looksAt(phone, act, where, close = 'Back') {
  await phone.tap(act);
  await expectFitEverywhere(phone, where);
  await phone.tap(close);
}

test('joining, arriving and the cautions', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await phone.open('/');
  await phone.hears('Join the shop');
  await expectFitEverywhere(phone, 'joining');
  await phone.page.getByLabel('Join code').fill('AAAA-AAAA');
  await phone.tap('Join');
  await expect(phone.page.getByRole('alert')).toBeVisible();
  await expectFitEverywhere(phone, 'a wrong join code');
  await phone.page.getByLabel('Join code').fill(hub.joinCode);
  await phone.tap('Join');
  await phone.hears('Who are you?');
  await expectFitEverywhere(phone, 'who are you');
  await phone.tap('Noor');
  await phone.hears('At the door');
  await expectFitEverywhere(phone, 'Door');
  await looksAt(phone, 'Scan the door code', 'the camera');
  for (const place of ['Bench', 'Sweep', 'Room', 'Book']) {
    await phone.go(place);
    await expectFitEverywhere(phone, `${place} without a session`);
  }
  await phone.open('/cautions');
  await expectFitEverywhere(phone, 'the cautions');
  await phone.go('Door');
  await phone.tap(/^Forge/);
  await phone.hears('1 of 3');
  await expectFitEverywhere(phone, 'a statement');
  await phone.tap('Not now');
  await expectFitEverywhere(phone, 'a declined statement');
  await phone.tap('Got it');
  await phone.tap(/^Forge/);
  await attestAll(phone);
  await expectFitEverywhere(phone, 'out-by');
  await phone.close();
});

test('working', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Forge');
  await startMachine(phone, 'Angle grinder');
  await expectFitEverywhere(phone, 'Bench');
  await looksAt(phone, 'Start: Spot welder', 'before a machine starts');
  await looksAt(phone, 'Why not?: Welding bay', 'a refusal');
  await looksAt(phone, 'Why not?: Cold saw', 'a machine tagged out');
  await looksAt(phone, /^Move out-by|^Out by/, 'moving out-by');
  await looksAt(phone, 'Ask for a buddy', 'an ask');
  await looksAt(phone, 'Tag a machine out', 'which machine to tag out');
  await phone.tap('Tag a machine out');
  await phone.page.locator('dialog').getByRole('button', { name: 'Needle scaler' }).tap();
  await expectFitEverywhere(phone, 'tagging out');
  await phone.tap('Back');
  await phone.go('Room');
  await expectFitEverywhere(phone, 'Room');
  await looksAt(phone, 'Muster', 'the muster list');
  await looksAt(phone, 'Fire', 'fire');
  await looksAt(phone, 'Welding shades', 'welding shades');
  await looksAt(phone, 'May I open this tin?', 'a tin');
  await phone.tap('What metal is this?');
  await phone.tap('lets go');
  await expectFitEverywhere(phone, 'a metal');
  await phone.tap('Back');
  await looksAt(phone, 'Found a mess', 'where the mess is');
  await looksAt(phone, 'Tell the steward something', 'an incident');
  await phone.go('Book');
  await expectFitEverywhere(phone, 'Book');
  await phone.close();
});

test('two buddies', async ({ browser }) => {
  const [ilse, bram] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(ilse, 'Ilse');
  await joined(bram, 'Bram');
  for (const phone of [ilse, bram]) await arrive(phone, 'Fitting');
  await ilse.tap('Ask for a buddy');
  await scanAsk(ilse, bram);
  await expectFitEverywhere(bram, 'being asked');
  await bram.tap('I am in the room');
  await bram.hears('Show them this');
  await expectFitEverywhere(bram, 'an answer');
  await ilse.hears('Bram is your buddy now.');
  await expectFitEverywhere(ilse, 'a buddy');
  await Promise.all([ilse.close(), bram.close()]);
});

test('closing down', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Marit');
  await arrive(phone, 'Forge');
  await startMachine(phone, 'Angle grinder');
  await phone.tap('Stop: Angle grinder');
  await expect(machine(phone, 'Angle grinder')).not.toContainText('runs,');
  await passUntil([phone], await instantOf(phone, await clockAfter(phone.page.locator('main'), 'Sweep from')));
  await phone.hears('Stop. Start sweeping.');
  await expectFitEverywhere(phone, 'the sweep bell');
  await phone.tap('To the sweep');
  await phone.tap('Start sweeping');
  await expectFitEverywhere(phone, 'how many sweep');
  await phone.tap('Back');
  await startSweep(phone);
  await tickNext(phone);
  await expectFitEverywhere(phone, 'Sweep');
  await phone.tap('Leave');
  await expectFitEverywhere(phone, 'before leaving');
  await phone.close();
});
