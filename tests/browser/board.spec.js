// The wall board and one's own evenings: the same steel rule, for everybody in a room and for what is over.

import { expect, test } from '@playwright/test';
import { arrive, coverByEye, joined, startMachine, startSweep, tickNext } from './acts.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';

const PICTURES = 'results/pictures';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

for (const colorScheme of ['dark', 'light']) {
  test(`a board shows everybody in its room, ${colorScheme}`, async ({ browser }) => {
    const [first, second] = colorScheme === 'dark' ? ['Noor', 'Ilse'] : ['Bram', 'Saar'];
    const open = async (name) => {
      const phone = await openPhone(browser, hub, { colorScheme, deviceScaleFactor: 1 });
      await joined(phone, name);
      return phone;
    };
    const noor = await open(first);
    await arrive(noor, 'Forge');
    await startMachine(noor, 'Angle grinder');
    const ilse = await open(second);
    await arrive(ilse, 'Forge');
    const wall = await open('Teun');
    await wall.page.setViewportSize({ width: 1920, height: 1080 });
    await wall.open('/board/forge');
    const rows = wall.page.locator('.board-row');
    await expect(rows.filter({ hasText: first })).toContainText('Angle grinder');
    await expect(rows.filter({ hasText: second })).toHaveCount(1);
    // One scale: the scriber lines stand above each other, in each column.
    const lines = await wall.page.locator('.board-row .sr-halo').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().x - one.closest('svg').getBoundingClientRect().x));
    expect(Math.max(...lines) - Math.min(...lines)).toBeLessThan(1);
    await wall.page.screenshot({ path: `${PICTURES}/board-${colorScheme}.png` });
    await wall.page.setViewportSize({ width: 390, height: 844 });
    await wall.page.screenshot({ path: `${PICTURES}/board-phone-${colorScheme}.png` });
    await wall.tap('Muster');
    await wall.hears(/people|person/);

    // A room that is not there is said to be none, not empty.
    await wall.open('/board/nowhere');
    await wall.hears('The rulebook has no such room.');

    // Whoever leaves is off the board, and has the evening in their Book.
    await startSweep(noor);
    await tickNext(noor);
    await pass([noor], { minutes: 40 });
    await noor.tap(/^Leave/);
    await noor.hears('Before you go');
    await noor.tap(/^Leave/);
    await noor.hears('At the door');
    await noor.go('Book');
    // On some days of the week the demo's log has another evening of hers before it.
    await expect(noor.page.locator('.evenings .steel-rule').first()).toBeVisible();
    await noor.hears(/1 chore ticked/);
    await noor.page.screenshot({ path: `${PICTURES}/evenings-${colorScheme}.png` });
    for (const phone of [noor, ilse, wall]) await phone.close();
  });
}
