// Who reads the camera's pictures: a worker, offline too; the page itself, where no worker starts, or where one falls silent.

import { expect, test } from '@playwright/test';
import { joined } from './acts.js';
import { hold } from './camera.js';
import { printedCodes } from './codes.js';
import { startHub } from './hub.js';
import { openPhone, pass } from './phone.js';

const PATIENCE_S = 5;

let hub;
let picture;
test.beforeAll(async ({ browser }) => {
  hub = await startHub();
  picture = (await printedCodes(browser, 'https://yard.example.org'))['https://yard.example.org/d/forge'];
});
test.afterAll(async () => hub.dispose());

const readers = (phone) => phone.page.workers().filter((worker) => worker.url().includes('/later_reader'));
const isRead = (phone) => phone.hears('This code belongs to another shop (yard.example.org).');

// A phone at the door, offline, with a code before its camera; `given` is what its page has instead of a Worker.
async function before(browser, given) {
  const phone = await openPhone(browser, hub);
  if (given) await phone.context.addInitScript(given);
  await joined(phone, 'Noor');
  await phone.settled();
  await phone.offline();
  return phone;
}

test('offline a worker reads, which is there while the camera is', async ({ browser }) => {
  const phone = await before(browser);
  expect(readers(phone)).toHaveLength(0);
  await phone.page.evaluate(() => {
    const { drawImage } = CanvasRenderingContext2D.prototype;
    window.looked = 0;
    CanvasRenderingContext2D.prototype.drawImage = function (...of) {
      window.looked += of[0] instanceof HTMLVideoElement ? 1 : 0;
      return drawImage.apply(this, of);
    };
  });
  // A wall: it is looked at again and again.
  await hold(phone, await phone.page.screenshot());
  await phone.tap('Scan the door code');
  await expect.poll(() => readers(phone).length).toBe(1);
  await expect.poll(() => phone.page.evaluate(() => window.looked)).toBeGreaterThan(5);
  await hold(phone, picture);
  await isRead(phone);
  await expect.poll(() => readers(phone).length).toBe(0);
  await phone.close();
});

test('where no worker starts the page reads', async ({ browser }) => {
  const phone = await before(browser, () => {
    window.Worker = class {
      constructor() {
        throw new Error('none starts');
      }
    };
  });
  await hold(phone, picture);
  await phone.tap('Scan the door code');
  await isRead(phone);
  await phone.close();
});

test('where a worker falls silent the page reads on', async ({ browser }) => {
  const phone = await before(browser, () => {
    window.asked = 0;
    window.Worker = class {
      constructor() {
        setTimeout(() => this.onmessage({ data: 'ready' }), 10);
      }
      postMessage() {
        window.asked += 1;
      }
      terminate() {}
    };
  });
  await hold(phone, picture);
  await phone.tap('Scan the door code');
  await expect.poll(() => phone.page.evaluate(() => window.asked)).toBe(1);
  await phone.hearsNot('This code belongs to another shop (yard.example.org).');
  await pass([phone], { seconds: PATIENCE_S + 1 });
  await isRead(phone);
  expect(await phone.page.evaluate(() => window.asked)).toBe(1);
  await phone.close();
});
