// Codes as they hang in the shop and show on phones: pictures of them, and what an independent reader makes of those.

import { spawnSync } from 'node:child_process';
import { sweepbell } from './hub.js';

// Pictures of the printed page's codes, by address: { 'http://../d/forge': png, .. }.
export async function printedCodes(browser, origin, shop = 'hub/demo/shop.toml') {
  const { status, stdout, stderr } = sweepbell('codes', shop, '--public-url', origin);
  if (status !== 0) throw new Error(stderr);
  const page = await browser.newPage({ viewport: { width: 800, height: 1130 }, deviceScaleFactor: 1 });
  await page.setContent(stdout);
  const pictures = {};
  for (const sheet of await page.locator('section').all()) {
    pictures[await sheet.getAttribute('data-url')] = await sheet.locator('svg').screenshot();
  }
  await page.close();
  return pictures;
}

// A picture of the code that a phone shows.
export async function shownCode(phone) {
  const code = phone.page.locator('svg.qr-code');
  await code.waitFor();
  return code.screenshot();
}

// What ZBar reads in a picture: all codes, one text each.
export function readByZbar(png) {
  const { status, stdout, error } = spawnSync('zbarimg', ['--quiet', '--raw', '-Sdisable', '-Sqrcode.enable', 'png:-'], { input: png });
  if (error) throw error;
  return status === 0 ? stdout.toString().trim().split('\n') : [];
}
