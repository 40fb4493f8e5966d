// The later part of the app: what is in it opens offline after one visit, and where it cannot be had, the screen says so, the
// rest goes on, and asking again helps.

import { expect, test } from '@playwright/test';
import { arrive, handIn, join, joined, startMachine, startSweep, tickNext } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';
import { phoneLines } from './record.js';
import { SIGNATURE, asideOf, damage } from './spoiling.js';

const LATER = /\/assets\/later_bg-[0-9a-f]+\.wasm$/;
const FAILED = 'This part of the app has not come through.';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

// Touches the way on until Book is there, unless it has come by itself: it is asked for whenever the hub is to be asked.
async function tryAgain(phone) {
  const again = (buttons, name) => buttons.find((button) => button.textContent === name)?.click();
  await expect(async () => {
    await phone.page.getByRole('button').evaluateAll(again, phone.says('Try again'));
    await expect(phone.page.getByRole('heading', { name: 'Book', exact: true })).toBeVisible({ timeout: 1_000 });
  }).toPass({ timeout: 20_000 });
}

// Without a worker every file of the app comes over the network, where a test can stop it.
const uncached = (browser) => openPhone(browser, hub, { serviceWorkers: 'block' });

test('a part that does not come is told of, holds nothing up, and comes when it is asked for again', async ({ browser }) => {
  const phone = await uncached(browser);
  await joined(phone, 'Noor');
  await phone.context.route(LATER, (route) => route.abort());
  await phone.open('/');
  await arrive(phone, 'Forge');
  await startMachine(phone, 'Angle grinder');
  await phone.go('Book');
  await phone.hears(FAILED);
  await phone.hears('What you have confirmed is kept, and your session runs on. Try again where there is a network.');
  // The places lead on, and what stands in the first part is all there.
  await phone.go('Room');
  await expect(phone.page.getByText('Noor (you)').first()).toBeVisible();
  await phone.tap('Fire');
  await phone.hears('Leave. Warn the others. Call.');
  await phone.tap('Back');
  await phone.hears(FAILED);
  // A sheet that does not come is closed like any other.
  await phone.go('Bench');
  await phone.tap(/^Out by/);
  await phone.hears(FAILED);
  await phone.tap('Back');
  await phone.hears('Machines');
  await phone.go('Book');
  await phone.hears(FAILED);
  await phone.tap('Try again');
  await phone.hears(FAILED);
  await phone.context.unroute(LATER);
  await tryAgain(phone);
  await phone.hears(/started Angle grinder|Angle grinder/);
  // Nobody could be asked before.
  await phone.tap('Send now');
  await phone.hears('Everything is with the hub.');
  await phone.close();
});

test('where it comes late, what is kept is proved from then on', async ({ browser }) => {
  const phone = await uncached(browser);
  await joined(phone, 'Marit');
  await arrive(phone, 'Fitting');
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  await phone.context.route(LATER, (route) => route.abort());
  await damage(phone, (await phoneLines(phone)).at(-1).seq, SIGNATURE);
  // It is believed as it was written: nothing that checks a signature is here.
  await phone.open('/book');
  await phone.hears(FAILED);
  // Nor will anything be fetched by itself, once the page was idle.
  await phone.ticks();
  expect(await asideOf(phone)).toEqual([]);
  await phone.context.unroute(LATER);
  await tryAgain(phone);
  await expect
    .poll(async () => {
      await pass([phone], { minutes: 1 });
      return (await asideOf(phone)).length;
    })
    .toBe(1);
  await phone.hears('1 line could not be read again.');
  await phone.close();
});

test('a photo that cannot be taken is told of, and the chore goes without', async ({ browser }) => {
  const phone = await uncached(browser);
  await joined(phone, 'Femke');
  await arrive(phone, 'Fitting');
  await startSweep(phone);
  await phone.context.route(LATER, (route) => route.abort());
  await phone.open('/sweep');
  await phone.tap(/^Done, with a photo: /);
  await phone.hears('The part of the app that takes photos has not come through.');
  await phone.hears('You can go on without a photo.');
  await phone.tap('Got it');
  await tickNext(phone);
  await expect(phone.page.getByRole('checkbox', { checked: true })).toHaveCount(1);
  await phone.close();
});

test('a new phone asks for a code at once, and asks the hub when there is what asks it', async ({ browser }) => {
  const phone = await uncached(browser);
  await phone.context.route(LATER, (route) => route.abort());
  await phone.open('/');
  await handIn(phone, hub.codeFor('joris'));
  await phone.hears('Joining needs the network this once.');
  await phone.context.unroute(LATER);
  await join(phone, 'Joris');
  await phone.hears('At the door');
  await phone.close();
});

test('until it is here there is a quiet moment, and then what was opened', async ({ browser }) => {
  const phone = await uncached(browser);
  let send;
  const held = new Promise((done) => (send = done));
  await joined(phone, 'Ilse');
  await phone.context.route(LATER, async (route) => {
    await held;
    await route.continue();
  });
  await phone.open('/cautions');
  await expect(phone.page.getByRole('status').filter({ hasText: 'One moment' })).toBeVisible();
  send();
  await phone.hears('What this app cannot do');
  await phone.close();
});

test('an answer that is no module is as good as none', async ({ browser }) => {
  const phone = await uncached(browser);
  await joined(phone, 'Saar');
  await phone.context.route(LATER, (route) => route.fulfill({ contentType: 'application/wasm', body: 'not a module' }));
  await phone.open('/book');
  await phone.hears(FAILED);
  await phone.context.unroute(LATER);
  await tryAgain(phone);
  await phone.close();
});

test('what nobody opened on the first visit opens without a network', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Bram');
  await phone.settled();
  await phone.offline();
  for (const [path, words] of [['/book', 'Book'], ['/board/forge', 'Forge'], ['/cautions', 'What this app cannot do']]) {
    await phone.open(path);
    await expect(phone.page.getByRole('heading', { name: words, exact: true })).toBeVisible();
  }
  await phone.close();
});
