// A picture of what was done: made small, rid of where it was taken, kept on the phone, and named in the log by its hash;
// handed to the hub after its line, and seen by those whom it is for.

import { createHash } from 'node:crypto';
import { expect, test } from '@playwright/test';
import { arrive, joined, startSweep } from './acts.js';
import { expectFit } from './fit.js';
import { startHub } from './hub.js';
import { openPhone } from './phone.js';
import { phoneLines, said } from './record.js';

const EDGE_PX = 1600;
const BYTES_MOST = 600_000;
// An Exif block as cameras write it (JEITA CP-3451), with a place in its text, right after the start of the image.
const PLACE = '52.0000N 004.0000E';
const PICTURE = 'Picture of Long bed lathe, as it was tagged out';

let hub;
test.beforeAll(async () => (hub = await startHub()));
test.afterAll(async () => hub.dispose());

test('a chore is ticked with a picture, or not at all', async ({ browser }) => {
  const phone = await openPhone(browser, hub);
  await joined(phone, 'Femke');
  await arrive(phone, 'Fitting');
  await startSweep(phone);
  const done = phone.page.getByRole('checkbox', { checked: true });
  await expect(done).toHaveCount(0);

  // Whoever thinks better of it has ticked nothing.
  await choose(phone, null);
  await expect(phone.page.locator('input[type=file]')).toHaveCount(0);
  await expect(done).toHaveCount(0);

  await choose(phone, await photograph(phone));
  await expect(done).toHaveCount(1);

  const { photo, what } = said((await phoneLines(phone)).at(-1).jws);
  expect(what).toBe('chore_done');
  const kept = await keptPhotos(phone);
  expect(Object.keys(kept)).toEqual([photo]);
  const bytes = Buffer.from(kept[photo].bytes, 'base64');
  expect(createHash('sha256').update(bytes).digest('base64url')).toBe(photo);
  expect([kept[photo].width, kept[photo].height]).toEqual([EDGE_PX, 1000]);
  expect(bytes.includes('Exif')).toBe(false);
  expect(bytes.includes(PLACE)).toBe(false);

  await phone.page.reload();
  await expect(done).toHaveCount(1);
  expect(Object.keys(await keptPhotos(phone))).toEqual([photo]);

  // Of the busiest there is no more than the hub takes.
  await choose(phone, await photograph(phone, { noise: true }));
  await expect(done).toHaveCount(2);
  const { [photo]: first, ...others } = await keptPhotos(phone);
  const [busy] = Object.values(others).map((one) => Buffer.from(one.bytes, 'base64').length);
  expect(busy).toBeGreaterThan(Buffer.from(first.bytes, 'base64').length);
  expect(busy).toBeLessThanOrEqual(BYTES_MOST);
  await expect.poll(() => valueOf(phone, 'handed').then((handed) => handed?.length)).toBe(2);

  await test.step('a steward who traces a mess sees what they looked like', async () => {
    await phone.go('Room');
    await phone.tap('Found a mess');
    await inSheet(phone, 'Fitting');
    await phone.page.locator('dialog textarea').fill('Chips under the vice');
    await inSheet(phone, 'Note the mess');
    const marit = await openPhone(browser, hub);
    await joined(marit, 'Marit');
    await page(marit, 'Finds');
    const find = marit.page.locator('li.row').filter({ hasText: 'Chips under the vice' });
    const pictures = find.locator('.picture');
    await expect(pictures).toHaveCount(2);
    for (const place of await pictures.all()) {
      await place.scrollIntoViewIfNeeded();
      const image = place.getByRole('img', { name: /^Picture of what was done: Fitting: / });
      await expect.poll(() => image.evaluate((image) => image.naturalWidth)).toBe(EDGE_PX);
    }
    await shoot(marit, 'finds');
    await expectFit(marit, 'Finds with pictures');
    await find.getByRole('button', { name: /^Picture of what was done: / }).first().tap();
    const whole = marit.page.locator('dialog').getByRole('img', { name: /^Picture of what was done: / });
    await expect.poll(() => whole.evaluate((image) => image.naturalWidth)).toBe(EDGE_PX);
    await shoot(marit, 'finds-whole');
    await marit.tap('Back');
    await expect(whole).toHaveCount(0);
    await marit.close();
  });
  await phone.close();
});

test('a tag is seen with its picture on other phones, and offline on the one that took it', async ({ browser }) => {
  const noor = await openPhone(browser, hub);
  const marit = await openPhone(browser, hub);
  await joined(noor, 'Noor');
  await joined(marit, 'Marit');
  await page(noor, 'Repairs');
  await noor.settled();

  await test.step('tagged out without a network, seen where it was taken', async () => {
    await noor.offline();
    await noor.go('Room');
    await noor.tap('Tag a machine out');
    await inSheet(noor, 'Long bed lathe');
    await noor.page.locator('dialog textarea').fill('The chuck key guard is bent');
    const asked = noor.page.waitForEvent('filechooser');
    await inSheet(noor, 'Tag it out with a picture');
    await (await asked).setFiles(await photograph(noor));
    await noor.hears('The chuck key guard is bent');
    await page(noor, 'Repairs');
    await expectSeen(noor);
    expect(await valueOf(noor, 'handed')).toBeUndefined();
  });

  await test.step('handed over once the line is, and seen by the steward', async () => {
    await page(marit, 'Repairs');
    await noor.offline(false);
    await expectSeen(marit);
    const names = Object.keys(await keptPhotos(noor));
    await expect.poll(() => valueOf(noor, 'handed')).toEqual(names);
    await marit.page.reload();
    await expectSeen(marit);
    await expectFit(marit, 'Repairs with a picture');
    await shoot(marit, 'repairs');
  });

  await test.step('a touch opens it whole, Back leads to its row', async () => {
    await marit.tap(PICTURE);
    const whole = marit.page.locator('dialog').getByRole('img', { name: PICTURE });
    await expect(whole).toBeVisible();
    await expect.poll(() => whole.evaluate((image) => image.naturalWidth)).toBe(EDGE_PX);
    await expectFit(marit, 'a picture, whole');
    await shoot(marit, 'whole');
    await marit.tap('Back');
    await expect(whole).toHaveCount(0);
    // By the keyboard as well.
    await marit.button(PICTURE).focus();
    await marit.page.keyboard.press('Enter');
    await expect(whole).toBeVisible();
    await marit.page.keyboard.press('Escape');
    await expect(whole).toHaveCount(0);
  });

  await test.step('in words where nobody has it', async () => {
    await marit.context.route('**/api/picture/*', (route) => route.fulfill({ status: 404 }));
    await marit.page.reload();
    await marit.hears('The picture is not here yet');
    await expect(marit.page.getByRole('img', { name: PICTURE })).toBeHidden();
    await shoot(marit, 'missing');
    await expectFit(marit, 'Repairs without its picture');
  });
  for (const phone of [noor, marit]) await phone.close();
});

async function page(phone, name) {
  await phone.go('Book');
  await phone.page.locator('.page-way').filter({ hasText: name }).tap();
  await expect(phone.page.getByRole('heading', { level: 1, name })).toBeVisible();
}

const inSheet = (phone, name) => phone.page.locator('dialog').getByRole('button', { name }).tap();

// The tag's picture is drawn, in the row of its machine.
async function expectSeen(phone) {
  const image = phone.page.locator('li.row').getByRole('img', { name: PICTURE });
  await expect(image).toBeVisible();
  await expect.poll(() => image.evaluate((image) => image.naturalWidth)).toBe(EDGE_PX);
}

async function shoot(phone, name) {
  for (const [theme, size, suffix] of [['dark', { width: 390, height: 844 }, ''], ['light', { width: 390, height: 844 }, '-light'], ['light', { width: 844, height: 390 }, '-lying'], ['dark', { width: 1280, height: 800 }, '-laptop']]) {
    await phone.page.setViewportSize(size);
    await phone.page.emulateMedia({ colorScheme: theme });
    await phone.page.locator('.picture').last().scrollIntoViewIfNeeded();
    await phone.page.screenshot({ path: `results/pictures/photo-${name}${suffix}.png` });
  }
  await phone.page.setViewportSize({ width: 390, height: 844 });
  await phone.page.emulateMedia({ colorScheme: 'dark' });
}

// A small value of the phone's database.
async function valueOf(phone, key) {
  return phone.page.evaluate(async (key) => {
    const asked = (request) => new Promise((done, fail) => ((request.onsuccess = () => done(request.result)), (request.onerror = () => fail(request.error))));
    const database = await asked(indexedDB.open('sweepbell'));
    const value = await asked(database.transaction('kv').objectStore('kv').get(key));
    database.close();
    return value;
  }, key);
}

// Asks for a picture of the chore whose turn it is, and hands this file over; or none, as the phone's camera does when
// one goes back.
async function choose(phone, file) {
  const asked = phone.page.waitForEvent('filechooser');
  await phone.tap(/^Done, with a photo: /);
  const chooser = await asked;
  if (file) await chooser.setFiles(file);
  else await phone.page.locator('input[type=file]').dispatchEvent('cancel');
}

// A picture of 2400 by 1500 pixels, with Exif: stripes, or nothing but noise.
async function photograph(phone, { noise = false } = {}) {
  const plain = await phone.page.evaluate(async (noise) => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [2400, 1500];
    const pen = canvas.getContext('2d');
    for (let x = 0; x < 2400; x += 40) {
      pen.fillStyle = `hsl(${x % 360} 60% 50%)`;
      pen.fillRect(x, 0, 40, 1500);
    }
    if (noise) {
      const all = pen.getImageData(0, 0, 2400, 1500);
      for (let at = 0; at < all.data.length; at += 65536) crypto.getRandomValues(all.data.subarray(at, at + 65536));
      pen.putImageData(new ImageData(all.data.map((value, at) => (at % 4 === 3 ? 255 : value)), 2400), 0, 0);
    }
    return canvas.toDataURL('image/jpeg').split(',')[1];
  }, noise);
  const image = Buffer.from(plain, 'base64');
  const exif = Buffer.from(`Exif\0\0MM\0*\0\0\0\x08\0\0\0\0\0\0${PLACE}`, 'latin1');
  const length = Buffer.from([(exif.length + 2) >> 8, (exif.length + 2) & 0xff]);
  const buffer = Buffer.concat([image.subarray(0, 2), Buffer.from([0xff, 0xe1]), length, exif, image.subarray(2)]);
  return { name: 'floor.jpg', mimeType: 'image/jpeg', buffer };
}

// The pictures on the phone, by their names: { hash: { bytes (base64), width, height } }.
async function keptPhotos(phone) {
  return phone.page.evaluate(async () => {
    const asked = (request) => new Promise((done, fail) => ((request.onsuccess = () => done(request.result)), (request.onerror = () => fail(request.error))));
    const database = await asked(indexedDB.open('sweepbell'));
    const photos = () => database.transaction('photos').objectStore('photos');
    const [names, all] = [await asked(photos().getAllKeys()), await asked(photos().getAll())];
    database.close();
    const kept = {};
    for (const [place, name] of names.entries()) {
      const bytes = new Uint8Array(all[place]);
      const picture = await createImageBitmap(new Blob([bytes], { type: 'image/jpeg' }));
      const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
      kept[name] = { bytes: btoa(text), width: picture.width, height: picture.height };
    }
    return kept;
  });
}
