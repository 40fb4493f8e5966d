// The main job, end to end: from the door to a clean room, on two phones, most of it without a network.

import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join as path } from 'node:path';
import { chromium, expect, test } from '@playwright/test';
import { atBench, attestAll, coverByEye, hearBell, join, machine, startMachine, tickNext } from './acts.js';
import { writeVideo } from './camera.js';
import { CHROMIUM, CHROMIUM_FLAGS, cameraFlags } from './chromium.js';
import { printedCodes } from './codes.js';
import { expectFit } from './fit.js';
import { startHub } from './hub.js';
import { openPhone, pass, passUntil } from './phone.js';
import { hubLines, kindsByWho, phoneLines, verified } from './record.js';
import { clockAfter, instantOf } from './shop_time.js';

const FIRST_BELL_MINUTES = 10;
const MINUTE_MS = 60_000;

let hub, folder, told;
test.beforeAll(async () => {
  hub = await startHub();
  folder = await mkdtemp(path(tmpdir(), 'sweepbell-camera-'));
  told = new Set(hubLines(hub));
});
test.afterAll(async () => {
  await hub.dispose();
  await rm(folder, { recursive: true, force: true });
});

// A browser whose camera sees the code that hangs by the forge's door.
async function browserAtTheDoor(browser) {
  const door = (await printedCodes(browser, hub.origin))[`${hub.origin}/d/forge`];
  const video = path(folder, 'door.y4m');
  const page = await browser.newPage();
  await writeVideo(page, door, video);
  await page.close();
  return chromium.launch({ executablePath: CHROMIUM, args: [...CHROMIUM_FLAGS, ...cameraFlags(video)] });
}

// The clocks go on until just before an instant and nothing rings, then past it and a bell does.
async function ringsAt(phones, at) {
  const bell = phones[0].page.locator('dialog.bell');
  await passUntil(phones, at - MINUTE_MS / 2);
  await phones[0].ticks();
  await expect(bell).toBeHidden();
  await pass(phones, { seconds: 31 });
  await expect(bell).toBeVisible();
}

test('from the door to a clean room, on two phones', async ({ browser }) => {
  test.setTimeout(120_000);
  const noor = await openPhone(browser, hub);
  let ilse, atTheDoor, owed, lastBell;

  await test.step('Noor opens the door code as a link, joins, and is at Bench', async () => {
    await noor.open(`/d/forge#j=${hub.joinCode}`);
    await noor.hears('Canal Yard. Who are you?');
    await expectFit(noor, 'who are you');
    await noor.tap('Noor');
    await attestAll(noor);
    await noor.tap(/^Start, out by/);
    await atBench(noor);
    await expectFit(noor, 'Bench');
  });

  await test.step('Ilse joins, and scans the code by the door in the app', async () => {
    atTheDoor = await browserAtTheDoor(browser);
    ilse = await openPhone(atTheDoor, hub);
    const newRules = noor.page.waitForResponse((answer) => answer.url().endsWith('/api/shop') && answer.ok());
    await ilse.open('/');
    await join(ilse, 'Ilse');
    await ilse.tap('Scan the door code');
    await attestAll(ilse);
    await ilse.tap(/^Start, out by/);
    await atBench(ilse);
    await newRules;
    await noor.go('Room');
    await noor.hears(/in since .*, out by/);
    await expect(noor.page.getByText('Ilse').first()).toBeVisible();
    await noor.go('Bench');
  });

  await test.step('the welding bay asks for a buddy, and says what to do', async () => {
    await Promise.all([noor.settled(), ilse.settled()]);
    await noor.offline();
    await ilse.offline();
    await noor.tap('Why not?: Welding bay');
    await noor.hears('Welding bay asks for a buddy, and nobody has confirmed.');
    await noor.hears('Ask someone in the room to scan your code.');
    await expectFit(noor, 'a refusal');
  });

  await test.step('with both phones offline, Ilse confirms by eye and the machine starts', async () => {
    await noor.page.locator('dialog').getByRole('button', { name: 'Ask for a buddy' }).tap();
    await expectFit(noor, 'the code of an ask');
    await coverByEye(noor, ilse);
    await noor.hears('Ilse is your buddy now.');
    await noor.tap('Got it');
    await ilse.hears('The network does not reach. The code does it.');
    await expectFit(ilse, 'the code of an answer');
    await ilse.tap('Done');
    await startMachine(noor, 'Welding bay');
    await expect(machine(noor, 'Welding bay')).toContainText(/buddy for 1[45] min more/);
  });

  await test.step('welding, then grinding, until the last spark', async () => {
    await pass([noor, ilse], { minutes: 10 });
    await noor.tap('Stop: Welding bay');
    await startMachine(noor, 'Angle grinder');
    const bench = noor.page.locator('main');
    lastBell = await instantOf(noor, await clockAfter(bench, 'Out by'));
    const lastSpark = await instantOf(noor, await clockAfter(bench, 'Last spark'));
    await ringsAt([noor, ilse], lastSpark);
    await expectFit(noor, 'the bell of the last spark');
    await hearBell(noor, 'Last spark. No more hot work.', 'Heard');
    await noor.tap('Stop: Angle grinder');
    await noor.tap('Why not?: Angle grinder');
    await noor.hears('Do cold work now, or move your out-by if you can stay longer.');
    await noor.tap('Back');
  });

  await test.step('the fire watch counts down', async () => {
    await noor.go('Sweep');
    await noor.hears(/Fire watch until \d{1,2}:\d\d/);
    await noor.tap('I walked the place');
    await noor.hears('Last walked: just now.');
    const left = noor.page.locator('section.watch [role=timer]');
    const before = await left.innerText();
    await pass([noor, ilse], { seconds: 5 });
    await expect(left).not.toHaveText(before);
    await expectFit(noor, 'the fire watch');
    await noor.go('Bench');
  });

  await test.step('first bell, sweep bell', async () => {
    const bench = noor.page.locator('main');
    const sweepFrom = await instantOf(noor, await clockAfter(bench, 'Sweep from'));
    await ringsAt([noor, ilse], sweepFrom - FIRST_BELL_MINUTES * MINUTE_MS);
    await expectFit(noor, 'the first bell');
    await hearBell(noor, 'Finish the pass you are on.', 'Heard');
    await ringsAt([noor, ilse], sweepFrom);
    await expectFit(noor, 'the sweep bell');
    // One word begins it; nobody puts this bell off without one.
    await noor.page.keyboard.press('Escape');
    await hearBell(noor, 'Stop. Start sweeping.', 'Sweeping now');
    await expect(noor.page).toHaveURL(/\/sweep$/);
    await noor.hears(/^Sweep, /);
  });

  await test.step('chores are ticked, and what is missing is said before leaving', async () => {
    const chores = noor.page.getByRole('checkbox');
    owed = await chores.count();
    await tickNext(noor);
    await tickNext(noor);
    await expectFit(noor, 'Sweep');
    await noor.tap('Leave');
    await noor.hears(`${owed - 2} chores are left`);
    await expect(noor.page.locator('dialog li')).toHaveCount(owed - 2);
    await expectFit(noor, 'before leaving');
    await noor.tap('Stay a little');
  });

  await test.step('last bell, the last chores, and out', async () => {
    await ringsAt([noor, ilse], lastBell);
    await expectFit(noor, 'the last bell');
    await hearBell(noor, 'You are past your out-by.', 'Go on sweeping');
    while ((await noor.page.getByRole('checkbox', { checked: false }).count()) > 0) await tickNext(noor);
    await noor.hears('Everything is done. Thank you.');
    await noor.tap('I have left it clean');
    await noor.hears('At the door');
  });

  await test.step('Ilse leaves too, with what is missing said', async () => {
    const bell = ilse.page.locator('dialog.bell');
    await expect(bell).toBeVisible();
    await ilse.tap('I have left');
    await ilse.hears('Then why is the sweep not done?');
    await expect(bell).toContainText(/chores are left/);
    await expectFit(ilse, 'why the sweep is not done');
    await ilse.tap('I had to go');
    await ilse.hears('At the door');
    await expect(bell).toBeHidden();
  });

  await test.step('the network returns and the hub holds exactly what both phones wrote', async () => {
    const written = [];
    for (const phone of [noor, ilse]) {
      await phone.go('Book');
      await phone.hears(/lines wait on this phone\./);
      await expectFit(phone, 'Book');
      await phone.offline(false);
      await phone.hears('Everything is with the hub.');
      written.push(...(await phoneLines(phone)).map(({ jws }) => jws));
    }
    const lines = hubLines(hub);
    const fresh = lines.filter((line) => !told.has(line));
    expect([...fresh].sort()).toEqual([...written].sort());
    expect(await verified(hub, lines)).toMatchObject({ ok: true, problems: [], entries: lines.length });
    const arrived = ['entered', 'attested', 'attested', 'attested'];
    const worked = ['buddy_confirmed', 'machine_started', 'machine_stopped', 'machine_started', 'bell_heard', 'machine_stopped', 'watch_round'];
    const done = Array.from({ length: owed }, () => 'chore_done');
    const swept = ['sweep_started', ...done.slice(0, 2), 'bell_heard', ...done.slice(2), 'left'];
    expect(kindsByWho(fresh)).toEqual({ noor: [...arrived, ...worked, ...swept], ilse: [...arrived, 'sweep_undone', 'left'] });
    expect(lines).toHaveLength(told.size + fresh.length);
  });
  await noor.close();
  await atTheDoor.close();
});
