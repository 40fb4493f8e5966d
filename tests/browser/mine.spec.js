// What the hub holds about somebody is theirs: seen, taken along as a file, erased everywhere, and the log is whole after it.

import { readFile } from 'node:fs/promises';
import { expect, test } from '@playwright/test';
import { arrive, joined, startSweep } from './acts.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { hubLines, phoneLines, verified } from './record.js';

// A shop of one's own: a demo's log already speaks of everybody.
let hub;
test.beforeAll(async () => (hub = await startHub({ shop: 'hub/demo/shop.toml', members: 'hub/demo/members.toml' })));
test.afterAll(async () => hub.dispose());

test('a member sees what is held about them, takes it along and has it erased; others forget it', async ({ browser }) => {
  const femke = await openPhone(browser, hub);
  await joined(femke, 'Femke');
  const noor = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  await arrive(noor, 'Fitting');
  await startSweep(noor);
  await noor.tap('Leave');
  await noor.tap('Leave the room');
  await noor.hears('At the door');
  await held(noor);
  const said = (await phoneLines(noor)).length;
  expect(said).toBeGreaterThan(4);
  await femke.go('Book');
  await femke.tap('Send now');
  await expect.poll(async () => (await lines(femke, 'fresh')).length).toBeGreaterThan(0);

  await noor.go('Book');
  await noor.tap('Look it up');
  await noor.hears(`${said} lines that your phones signed`);
  await noor.hears('The log is kept for 90 days and goes then by itself, on phones too.');
  const [download] = await Promise.all([noor.page.waitForEvent('download'), noor.page.getByText('Take it along as a file').click()]);
  expect(download.suggestedFilename()).toBe('sweepbell.json');
  const file = JSON.parse(await readFile(await download.path(), 'utf8'));
  expect(file.member.name).toBe('Noor');
  expect(file.lines).toEqual((await phoneLines(noor)).map((line) => line.jws));

  await noor.tap('Have it erased');
  await noor.tap('For good: erase it');
  await noor.hears(`${said} lines are erased, here as well.`);
  await noor.hears('0 lines that your phones signed');
  expect(await phoneLines(noor)).toEqual([]);

  await femke.tap('Send now');
  await expect.poll(async () => (await lines(femke, 'fresh')).length).toBe(0);

  // The phone goes on where it was: nothing is missing, nobody tells two stories.
  await noor.go('Door');
  await arrive(noor, 'Fitting');
  await held(noor);
  expect((await phoneLines(noor))[0].seq).toBe(said + 1);
  expect(await verified(hub, hubLines(hub, []))).toMatchObject({ ok: true, erased: said });
  for (const phone of [femke, noor]) await phone.close();
});

// The hub has all that this phone said.
const held = (phone) =>
  expect.poll(async () => (await phoneLines(phone)).every((line) => line.state === 'acked'), { timeout: 20_000 }).toBe(true);

// What lies in one of the phone's stores.
function lines(phone, store) {
  return phone.page.evaluate(
    (store) =>
      new Promise((done, fail) => {
        const asked = indexedDB.open('sweepbell');
        asked.onerror = () => fail(asked.error);
        asked.onsuccess = () => {
          const all = asked.result.transaction(store).objectStore(store).getAll();
          all.onsuccess = () => (asked.result.close(), done(all.result));
        };
      }),
    store,
  );
}
