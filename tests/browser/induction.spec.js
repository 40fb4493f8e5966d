// From a stranger to somebody who runs a machine, phone to phone and without a network: the walk stop by stop, the steward's word,
// a sign-off at the machine; and what only a steward does to others: a role, and the end of a membership.

import { expect, test } from '@playwright/test';
import { arrive, bookPage, joined, lookAt, machine, showTo, startMachine } from './acts.js';
import { readByZbar, shownCode } from './codes.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { SHOP, stops, walkAll } from './stops.js';

let hub;
test.beforeEach(async () => (hub = await startHub({ shop: SHOP, members: 'hub/demo/members.toml' })));
test.afterEach(async () => hub.dispose());
test.describe.configure({ timeout: 180_000 });

const bundle = (phone) => phone.page.evaluate(() => fetch('/api/shop').then((answer) => answer.json()));
const row = async (phone, who) => (await bundle(phone)).members.find((member) => member.id === who);

test('a new member walks every stop offline, and is inducted phone to phone', async ({ browser }) => {
  const [tess, marit] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(tess, 'Tess');
  await joined(marit, 'Marit');
  for (const phone of [tess, marit]) {
    await phone.settled();
    await phone.offline();
  }
  expect(stops().length).toBe(17);
  await walkAll(tess, async ({ answers, right }, number) => {
    await tess.hears(`${20 - number} of 20 still to walk`);
    if (!right) return;
    await tess.tap(answers.find((_, place) => place + 1 !== right));
    await tess.hears(/^Not quite\. /);
    await tess.hears('Look again, and pick another answer.');
  });
  await tess.hears('0 of 20 still to walk');

  // Nobody inducts themself: there is no such button on her phone.
  expect(readByZbar(await shownCode(tess))[0]).toMatch(/^SWB1:[0-9A-Z $%*+./:-]+$/);
  await bookPage(marit, 'People');
  await showTo(tess, marit);
  await marit.tap("Scan somebody's walk");
  await marit.hears('They have walked every stop, as it stands now.');
  await expect(marit.page.getByRole('heading', { name: 'Tess' })).toBeVisible();
  await marit.tap('Induct them');
  await marit.hears(/^until 20\d\d-\d\d-\d\d$/);

  await bookPage(tess, 'What I may run');
  await showTo(marit, tess);
  await tess.tap('Scan their code');
  await tess.hears('It counts on this phone from now on.');
  await tess.tap('Got it');
  await tess.go('Door');
  await arrive(tess, 'Forge');

  // Later both meet the hub, in either order: her card says it too.
  await marit.offline(false);
  await marit.go('Book');
  await marit.tap('Send now');
  await expect.poll(async () => (await row(marit, 'tess')).inducted_until).toBeTruthy();
  await tess.offline(false);
  await expect.poll(async () => (await row(tess, 'tess')).inducted_until).toBeTruthy();
  for (const phone of [tess, marit]) await phone.close();
});

test('a start that is refused is possible after a sign-off at the machine, without a network', async ({ browser }) => {
  const [wout, marit] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(wout, 'Wout');
  await joined(marit, 'Marit');
  for (const phone of [wout, marit]) {
    await phone.settled();
    await phone.offline();
  }
  await arrive(wout, 'Fitting');
  await expect(machine(wout, 'Pillar drill')).toContainText('You are not signed off on Pillar drill yet.');

  await lookAt(marit, 'Wout');
  await marit.tap('Sign off: Drilling');
  await expect(marit.button('We did it all: sign')).toHaveCount(0);
  for (const line of ['Work clamped', 'No gloves', 'One hole']) {
    await marit.page.locator('button.tick', { hasText: line }).tap();
  }
  await marit.tap('We did it all: sign');
  // Another phone than his is told that it is not for it.
  const bram = await openPhone(browser, hub);
  await joined(bram, 'Bram');
  await bookPage(bram, 'What I may run');
  await showTo(marit, bram);
  await bram.tap('Scan their code');
  await bram.hears('That code is not for this phone, or is by somebody who may not say it.');

  await bookPage(wout, 'What I may run');
  await showTo(marit, wout);
  await wout.tap('Scan their code');
  await wout.hears('It counts on this phone from now on.');
  await wout.tap('Got it');
  await wout.go('Bench');
  await startMachine(wout, 'Pillar drill');
  for (const phone of [wout, marit, bram]) await phone.close();
});

test('a role is given and taken, and the last steward keeps hers', async ({ browser }) => {
  const [bram, marit] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(bram, 'Bram');
  await joined(marit, 'Marit');
  await lookAt(marit, 'Bram');
  await marit.tap('signs others off');
  await expect(marit.button('signs others off')).toHaveAttribute('aria-pressed', 'true');
  await expect.poll(async () => (await row(marit, 'bram')).signer).toBe(true);
  await bram.go('Book');
  await bram.tap('Send now');
  await bram.hears('You sign others off.');
  await lookAt(bram, 'Wout');
  await bram.hears('What they are signed off on already, this phone does not know. Their own does.');
  await expect(bram.button('Sign off: Drilling')).toBeVisible();
  await expect(bram.button('Induct them')).toHaveCount(0);
  await expect(bram.button('They leave the shop')).toHaveCount(0);

  await lookAt(marit, 'Marit');
  await marit.tap('member');
  await marit.hears('Nobody else looks after this shop.');
  for (const phone of [bram, marit]) await phone.close();
});

test('who leaves is taken off and erased by two touches', async ({ browser }) => {
  const [saar, marit] = [await openPhone(browser, hub), await openPhone(browser, hub)];
  await joined(saar, 'Saar');
  await joined(marit, 'Marit');
  for (const stop of ['forge_voice', 'forge_air']) {
    await saar.open(`/s/${stop}`);
    await saar.tap('Seen and understood');
    await saar.hears('This one is behind you.');
  }
  await expect.poll(() => hub.steward('about', 'saar').lines.length).toBe(2);
  await lookAt(marit, 'Saar');
  const [held] = await Promise.all([marit.page.waitForEvent('download'), marit.page.getByRole('link', { name: 'Take along what is held about them' }).click()]);
  const chunks = [];
  for await (const chunk of await held.createReadStream()) chunks.push(chunk);
  // Whom it is about, and nothing that no steward reads: not even which stops were walked.
  expect(JSON.parse(Buffer.concat(chunks).toString())).toMatchObject({ member: { id: 'saar' }, lines: [] });
  await marit.tap('They leave the shop');
  expect(hub.steward('about', 'saar').lines.length).toBe(2);
  await marit.tap('For good: take off and erase');
  await marit.hears(/^\d+ lines were erased, and their phones are taken off\.$/);
  expect(hub.steward('about', 'saar').lines).toEqual([]);
  await saar.go('Book');
  await saar.tap('Send now');
  await saar.hears("This phone was taken off the shop's list.");
  for (const phone of [saar, marit]) await phone.close();
});
