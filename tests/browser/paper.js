// What comes out of the printer: a page as PDF, and what independent readers (Poppler's) make of it.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

function poppler(program, args, input) {
  const { status, stdout, stderr, error } = spawnSync(program, args, { input, maxBuffer: 64 * 1024 * 1024 });
  if (error) throw error;
  if (status !== 0) throw new Error(stderr.toString());
  return stdout;
}

// The page as it would be printed; `format` as Chromium names papers.
export async function printed(phone, format = 'A4') {
  return phone.page.pdf({ format, preferCSSPageSize: false, printBackground: false });
}

// How many sheets it is.
export function sheets(pdf) {
  return Number(/^Pages:\s+(\d+)$/m.exec(poppler('pdfinfo', ['-'], pdf).toString())[1]);
}

// Its text, with the white space between words taken for one blank.
export function textOf(pdf) {
  return poppler('pdftotext', ['-raw', '-', '-'], pdf).toString().replace(/\s+/g, ' ');
}

// A picture of each sheet: PNG, or PGM, which is grey and takes no time to pack.
export function picturesOf(pdf, dotsPerInch, kind = 'png') {
  const folder = mkdtempSync(join(tmpdir(), 'sweepbell-paper-'));
  writeFileSync(join(folder, 'it.pdf'), pdf);
  poppler('pdftoppm', [kind === 'pgm' ? '-gray' : '-png', '-r', String(dotsPerInch), join(folder, 'it.pdf'), join(folder, 'sheet')]);
  const pictures = readdirSync(folder).filter((name) => name.endsWith(`.${kind}`)).sort();
  const read = pictures.map((name) => readFileSync(join(folder, name)));
  rmSync(folder, { recursive: true });
  return read;
}
