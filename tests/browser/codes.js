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

// The code in what a hub said at its start, as a terminal draws it: two cells to a character, ink where one is filled.
export function terminalCode(said) {
  const DOTS_PX = 6;
  const UPPER = '█▀';
  const LOWER = '█▄';
  const lines = said.split('\n').filter((line) => /^[█▀▄ ]{20,}$/.test(line));
  const rows = lines.flatMap((line) => [UPPER, LOWER].map((filled) => [...line].map((cell) => (filled.includes(cell) ? 0 : 255))));
  const wide = rows.map((row) => row.flatMap((shade) => Array(DOTS_PX).fill(shade)));
  const pixels = wide.flatMap((row) => Array(DOTS_PX).fill(row));
  const header = `P5 ${pixels[0]?.length ?? 0} ${pixels.length} 255\n`;
  return Buffer.concat([Buffer.from(header), Buffer.from(pixels.flat())]);
}

// What ZBar reads in a picture: all codes, one text each.
export function readByZbar(picture, kind = 'png') {
  const { status, stdout, error } = spawnSync('zbarimg', ['--quiet', '--raw', '-Sdisable', '-Sqrcode.enable', `${kind}:-`], { input: picture });
  if (error) throw error;
  return status === 0 ? stdout.toString().trim().split('\n') : [];
}
