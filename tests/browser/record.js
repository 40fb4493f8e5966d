// What was written down: the hub's log as it arrived, and a phone's own in its database.

import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sweepbell } from './hub.js';

// The lines that the hub holds.
export function hubLines(hub, flags = ['--demo']) {
  const { status, stdout, stderr } = sweepbell('export', '--data', hub.dataDir, ...flags);
  if (status !== 0) throw new Error(stderr);
  return stdout.split('\n').filter(Boolean);
}

// The same, checked by the program itself: every signature, every chain.
export async function verified(hub, lines) {
  const file = join(hub.dataDir, 'exported.jws');
  await writeFile(file, lines.map((line) => `${line}\n`).join(''));
  return JSON.parse(sweepbell('verify', file).stdout);
}

// What a line says: { what, who, session, at, seq, .. }.
export function said(line) {
  return JSON.parse(Buffer.from(line.split('.')[1], 'base64url').toString());
}

// Kinds in order, by who said them: { noor: ['entered', ..], .. }.
export function kindsByWho(lines) {
  const kinds = {};
  for (const { who, what } of lines.map(said)) (kinds[who] ??= []).push(what);
  return kinds;
}

// A phone's own log: [{ seq, jws, state }, ..].
export async function phoneLines(phone) {
  return phone.page.evaluate(async () => {
    const asked = (request) => new Promise((done, fail) => ((request.onsuccess = () => done(request.result)), (request.onerror = () => fail(request.error))));
    const database = await asked(indexedDB.open('sweepbell'));
    const lines = await asked(database.transaction('log').objectStore('log').getAll());
    database.close();
    return lines;
  });
}
