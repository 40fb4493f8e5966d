// Who in the room could be a buddy: named with how old that is; who cannot says why; whoever is asked by name is asked over
// the network.

import { expect, test } from '@playwright/test';
import { arrive, joined, scanAsk, startMachine } from './acts.js';
import { expectFitEverywhere } from './fit.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';

const FOLDER = process.env.PICTURES_OF_ROUNDS ?? 'results/pictures';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('the sheet names who could be a buddy, and why the others cannot', async ({ browser }) => {
  const [noor, ilse, bram, wout] = await Promise.all([1, 2, 3, 4].map(() => openPhone(browser, hub)));
  for (const [phone, name] of [[ilse, 'Ilse'], [bram, 'Bram'], [wout, 'Wout'], [noor, 'Noor']]) {
    await joined(phone, name);
    await arrive(phone, 'Fitting');
  }
  await test.step('Ilse runs the mill with Bram as her buddy', async () => {
    await ilse.tap('Ask for a buddy');
    await scanAsk(ilse, bram);
    await bram.tap('I am in the room');
    await ilse.hears('Bram is your buddy now.');
    await ilse.tap('Got it');
    await bram.tap('Done');
    await startMachine(ilse, 'Mill');
  });

  await test.step("Noor's sheet has Wout to ask, and says why not Ilse or Bram", async () => {
    await noor.go('Bench');
    await noor.tap('Ask for a buddy');
    const row = (name) => noor.page.locator('dialog li').filter({ has: noor.page.getByText(name, { exact: true }) });
    await expect(row('Ilse')).toContainText('Ilse is running a machine that asks for a buddy.');
    await expect(row('Bram')).toContainText("Bram is somebody else's buddy now.");
    await expect(row('Wout')).toContainText('last heard of');
    await expect(noor.page.locator('dialog li').first()).toContainText('Wout');
    await expect(noor.page.locator('dialog li').getByRole('button')).toHaveCount(1);
    await expectFitEverywhere(noor, 'who could be a buddy');
    for (const colorScheme of ['dark', 'light']) {
      await noor.page.emulateMedia({ colorScheme });
      await row('Bram').scrollIntoViewIfNeeded();
      await noor.page.screenshot({ path: `${FOLDER}/candidates-${colorScheme}.png` });
    }
    await noor.tap('Ask their phone too: Wout');
    await noor.hears("Wout's phone was asked over the network as well.");
    await wout.hears('Noor asks you to be their buddy');
    await wout.tap('I am in the room');
    await noor.hears('Wout is your buddy now.');
  });
  await Promise.all([noor, ilse, bram, wout].map((phone) => phone.close()));
});
