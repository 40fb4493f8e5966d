// The rulebook desk: what is wrong as it is typed, an evening tried, publishing, and putting back; and a member's phone that
// works by the new rules.

import { expect, test } from '@playwright/test';
import { joined } from './acts.js';
import { write } from './field.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { hubLines, said } from './record.js';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

const WAIT = { timeout: 15_000 };

for (const colorScheme of ['dark', 'light']) {
  test(`a steward writes, tries and publishes the rules, ${colorScheme}`, async ({ browser }) => {
    const marit = await openPhone(browser, hub, { colorScheme, deviceScaleFactor: 1 });
    await joined(marit, 'Marit');
    await marit.open('/book/rules');
    const { page } = marit;
    const text = page.locator('#rules-text');
    await expect(text).toHaveValue(/\[shop\]/, WAIT);
    const before = await text.inputValue();
    await marit.hears('No problem found.');

    // A slip is named at its place, and a touch leads there.
    await write(text, () => before.replace('renew_minutes', 'renew_mintues'));
    const problem = page.locator('.rules li').filter({ hasText: 'renew_mintues' });
    await expect(problem).toBeVisible(WAIT);
    await problem.getByRole('button').tap();
    const line = await text.evaluate((area) => area.value.slice(0, area.selectionStart).split('\n').length);
    expect(before.split('\n')[line - 1]).toContain('renew_minutes');
    await page.screenshot({ path: `results/pictures/rules-wrong-${colorScheme}.png` });
    await expect(page.getByRole('button', { name: 'Publish these rules' })).toBeHidden();

    // What it changes is said in words, and an evening is tried under it.
    const minutes = colorScheme === 'dark' ? 20 : 25;
    await write(text, () => before.replace(/^floor_minutes = \d+/m, `floor_minutes = ${minutes}`));
    await expect(page.locator('.rules li').filter({ hasText: `reserve, floor_minutes: ${minutes}, was` })).toBeVisible(WAIT);
    await marit.tap('Long bed lathe');
    await expect(page.getByText(/\d+ min are held back for the sweep\./)).toBeVisible(WAIT);
    await expect(page.locator('.rules svg.steel-rule')).toBeVisible();
    await page.locator('.rules svg.steel-rule').scrollIntoViewIfNeeded();
    await page.screenshot({ path: `results/pictures/rules-evening-${colorScheme}.png` });

    await page.getByLabel('Why, in a few words').fill('More time for the floor');
    await marit.tap('Publish these rules');
    await marit.tap('In force for everybody: publish');
    await expect(page.getByText(/^Published as number \d/)).toBeVisible(WAIT);
    await expect(page.locator('.rules li').filter({ hasText: 'More time for the floor' }).first()).toBeVisible(WAIT);
    const rules = async (phone) => phone.page.evaluate(async () => (await (await fetch('/api/shop')).json()).rulebook.reserve.floor_minutes);
    expect(await rules(marit)).toBe(minutes);

    // It is a line of the steward's log, signed; once, whatever is looked at again.
    const entries = async () => hubLines(hub).map(said).filter(({ what }) => what === 'rules_published');
    const number = colorScheme === 'dark' ? 1 : 2;
    await expect.poll(async () => (await entries()).map((entry) => [entry.number, entry.note, entry.who])).toEqual(
      Array.from({ length: number }, (_, index) => [index + 1, 'More time for the floor', 'marit']),
    );
    await page.reload();
    await marit.hears('No problem found.');
    expect(await entries()).toHaveLength(number);
    await marit.go('Book');
    await marit.hears(`Published rules no. ${number}: More time for the floor`);
    await marit.open('/book/rules');
    await marit.hears('No problem found.');

    // Another steward's edit over the old rules is not lost unseen: this one is told. Putting back is one more.
    await marit.tap(/^Put it in the text: 1,/);
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.screenshot({ path: `results/pictures/rules-wide-${colorScheme}.png`, fullPage: true });
    await marit.close();
  });
}
