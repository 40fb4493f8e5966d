// Every screen in every state (states.js) in each other language, and in one that no person speaks: a third longer, in
// other letters, from right to left. Nothing is cut off, nothing lies over anything else, and no English is left over.
//
// PICTURES keeps one of each state, in a folder for each language.

import { expect, test } from '@playwright/test';
import { join } from './acts.js';
import { misfits } from './geometry.js';
import { startHub } from './hub.js';
import { speaking } from './languages.js';
import { overlaps } from './overlaps.js';
import { openPhone } from './phone.js';
import { STORIES, walk } from './states.js';

const SIZES = [
  { width: 390, height: 844 },
  { width: 320, height: 640 },
  { width: 740, height: 360 },
];

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());
test.describe.configure({ timeout: 240_000 });

for (const tag of ['es', 'nl', 'pseudo']) {
  for (const story of STORIES) {
    test(`${tag}: ${story.name}`, async ({ browser }) => {
      const [wrong, language] = [[], speaking(tag)];
      const look = async (phone, state) => {
        const shown = await phone.page.evaluate(() => document.body.innerText.split('\n').map((line) => line.trim()));
        wrong.push(...language.leftOver(new Set(shown)).map((line) => `${state}: in English: ${line}`));
        // A unit of five letters beside three figures is no language's: there is no room for it on the smallest phone.
        for (const { width, height } of SIZES.filter(({ width }) => tag !== 'pseudo' || width > 320)) {
          await phone.page.setViewportSize({ width, height });
          const found = [...(await misfits(phone.page)), ...(await overlaps(phone.page))];
          wrong.push(...found.map((line) => `${state}, ${width} by ${height}: ${line}`));
          if (process.env.PICTURES && width !== 320) await phone.page.screenshot({ path: `results/languages/${tag}/${state.replace(/\W+/g, '-')}-${width}.png` });
        }
        await phone.page.setViewportSize(SIZES[0]);
      };
      await walk(browser, hub, story, look, language);
      expect(wrong).toEqual([]);
    });
  }
}

// The page says whose words it has; a language that was picked in Book comes before the phone's own, and stays.
test('a phone speaks its own language until another is picked', async ({ browser }) => {
  const phone = await openPhone(browser, hub, { locale: 'nl-NL' });
  const spoken = () => phone.page.evaluate(() => [document.documentElement.lang, document.documentElement.dir]);
  await phone.open('/');
  await phone.hears('Meedoen met de werkplaats');
  expect(await spoken()).toEqual(['nl', 'ltr']);
  const code = phone.page.getByLabel('Meedoecode');
  await code.fill(hub.joinCode);
  await phone.tap('Meedoen');
  await phone.tap('Ilse');
  await phone.hears('Aan de deur');
  await phone.hears('Smederij');
  await phone.go('Boek');
  await phone.tap('Español');
  await phone.hears('El registro de este teléfono');
  expect(await spoken()).toEqual(['es', 'ltr']);
  await phone.settled();
  await phone.offline();
  await phone.page.reload();
  await phone.hears('El registro de este teléfono');
  await phone.tap('English');
  await phone.hears("This phone's log");
  await phone.close();
});

test('a phone whose languages nobody speaks here is spoken to in English', async ({ browser }) => {
  const phone = await openPhone(browser, hub, { locale: 'fi-FI' });
  await phone.open('/');
  await join(phone, 'Bram');
  await phone.hears('At the door');
  expect(await phone.page.evaluate(() => document.documentElement.lang)).toBe('en');
  await phone.close();
});
