// A reload loses nothing, on any screen, in the middle of a session: what was there is there again, bells and all.

import { expect, test } from '@playwright/test';
import { arrive, hearBell, joined, startMachine, startSweep, tickNext } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, passUntil } from './phone.js';
import { phoneLines } from './record.js';
import { clockAfter, instantOf } from './shop_time.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('every screen is the same after a reload', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Noor');
  await arrive(phone, 'Fitting');
  await startMachine(phone, 'Pillar drill');
  await phone.settled();
  await phone.offline();
  // From here on the clock stands still, so that two pictures can be compared word by word.
  await phone.context.clock.setFixedTime(await phone.page.evaluate(() => Date.now()));
  await sameAfterReload(phone, ['Door', 'Bench', 'Sweep', 'Room', 'Book']);
  await phone.go('Bench');
  await startSweep(phone);
  await tickNext(phone);
  await sameAfterReload(phone, ['Bench', 'Sweep', 'Book']);
  await phone.close();
});

async function sameAfterReload(phone, places) {
  for (const place of places) {
    await phone.go(place);
    const main = phone.page.locator('main');
    await expect(phone.place(place)).toHaveAttribute('aria-current', 'page');
    await phone.framed();
    const [before, lines] = [await main.evaluate(lasting), (await phoneLines(phone)).map(said)];
    await phone.page.reload();
    await expect.poll(() => main.evaluate(lasting), { message: place }).toBe(before);
    expect((await phoneLines(phone)).map(said)).toEqual(lines);
  }
}

test('a bell that rings goes on ringing after a reload, and stays silent once it was heard', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Ilse');
  await arrive(phone, 'Fitting');
  await phone.settled();
  await phone.offline();
  await passUntil([phone], await instantOf(phone, await clockAfter(phone.page.locator('main'), 'Sweep from')));
  const bell = phone.page.locator('dialog.bell');
  await expect(bell).toBeVisible();
  await phone.page.reload();
  await hearBell(phone, 'Stop. Start sweeping.', 'Sweeping now');
  await phone.page.reload();
  await expect(phone.page.getByRole('heading', { name: /^(Sweep, Fitting|Not sweeping yet)/ })).toBeVisible();
  await phone.ticks();
  await expect(bell).toBeHidden();
  await phone.close();
});

// A line without where it stands: the hub may have taken it as the network went.
function said({ seq, jws, at }) {
  return { seq, jws, at };
}

// What a screen says, without the line of what the last act moved: that is for whoever did it, and goes by itself; and
// without what reaches this phone: a page that was loaded anew has no sound before its first touch, and says so.
function lasting(main) {
  const passing = main.querySelectorAll('.times > [role=status], .pocket-line');
  for (const line of passing) line.style.display = 'none';
  const text = main.innerText;
  for (const line of passing) line.style.display = '';
  return text;
}
