// A buddy's word in time: renewed before it lapses, over the network without a camera; taken back by whoever leaves;
// and never shown as standing once it has run out.

import { expect, test } from '@playwright/test';
import { arrive, coverByEye, hearBell, joined, machine, scanAsk, startMachine } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';

const RENEW_MINUTES = 15;
const WARNING_MINUTES = 2;

let hub, noor, ilse;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.beforeEach(async ({ browser }) => {
  [noor, ilse] = [await openPhone(browser, hub), await openPhone(browser, hub)];
});
test.afterEach(async () => Promise.all([noor.close(), ilse.close()]));

test('a word is renewed over the network, lapses with a bell, and is taken back', async () => {
  await joined(ilse, 'Ilse');
  await joined(noor, 'Noor');
  for (const phone of [ilse, noor]) await arrive(phone, 'Fitting');
  await noor.tap('Ask for a buddy');
  await scanAsk(noor, ilse);
  await ilse.tap('I am in the room');
  // Nobody holds a phone before another: the hub is quicker.
  await noor.hears('Ilse is your buddy now.');
  await noor.tap('Got it');
  await ilse.tap('Done');
  await startMachine(noor, 'Long bed lathe');

  await test.step('two minutes before the end a bell asks; the hub carries ask and answer', async () => {
    await pass([noor, ilse], { minutes: RENEW_MINUTES - WARNING_MINUTES });
    await hearBell(noor, "Your buddy's word ends in 2 minutes.", 'Heard');
    await noor.tap('Ask again: Ilse');
    await noor.hears("Ilse's phone was asked over the network as well.");
    await ilse.hears('Noor asks you to be their buddy');
    await ilse.tap('I am in the room');
    await ilse.hears('It went over the network too. They may have it already.');
    await ilse.tap('Done');
    await noor.hears('Ilse is your buddy now.');
    await noor.tap('Got it');
    await expect(machine(noor, 'Long bed lathe')).toContainText(/buddy for 1[45] min more/);
  });

  await test.step('past its end the cover is not claimed any more', async () => {
    // Both: a stream that is open already outlives the browser's emulated loss of its network.
    await Promise.all([noor.offline(), ilse.offline()]);
    await pass([noor, ilse], { minutes: RENEW_MINUTES, seconds: 30 });
    await hearBell(noor, 'No buddy. Stop the machine.', 'Heard');
    await expect(machine(noor, 'Long bed lathe')).toContainText('No buddy now. Stop it, or ask again.');
    await noor.tap('Stop: Long bed lathe');
    await noor.tap('Why not?: Long bed lathe');
    await noor.hears('Long bed lathe asks for a buddy, and nobody has confirmed.');
  });

  await test.step('whoever leaves says so, and no longer counts', async () => {
    await noor.page.locator('dialog').getByRole('button', { name: 'Ask for a buddy' }).tap();
    await coverByEye(noor, ilse);
    await noor.hears('Ilse is your buddy now.');
    await noor.tap('Got it');
    await ilse.tap('Done');
    await noor.tap('Ask again: Ilse');
    await coverByEye(noor, ilse, 'I am leaving');
    await noor.hears('Ilse is no longer your buddy.');
    await noor.hears('Stop what needs a buddy, or ask someone else.');
    await noor.tap('Got it');
    await expect(noor.button('Why not?: Long bed lathe')).toBeVisible();
  });
});
