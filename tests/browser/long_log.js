// A long log on a phone: the demo's, said again by other phones over the two years before, each line signed by its phone's key.

import { createHash, generateKeyPairSync, sign } from 'node:crypto';
import { expect } from '@playwright/test';

const DAY_MS = 24 * 3_600_000;
// The demo's log is of four weeks; what is said again lies in the two years before those.
const [FROM_DAYS, TO_DAYS] = [28, 730];
const AT_ONCE = 10_000;

// Puts lines of other phones into this one's journal until it has so many.
export async function keeps(phone, lines, wanted) {
  await phone.go('Book');
  await phone.hears('Everything is with the hub.');
  const count = () => phone.page.evaluate(async () => {
    const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const database = await asked(indexedDB.open('sweepbell'));
    const lines = await asked(database.transaction('fresh').objectStore('fresh').count());
    database.close();
    return lines;
  });
  // The log comes in several answers: it is there when no more of it comes.
  let own = -1;
  await expect.poll(async () => own === (own = await count()), { intervals: [1_000] }).toBe(true);
  const others = [];
  const times = Math.ceil(Math.max(0, wanted - own) / lines.length);
  for (let time = 0; time < times; time++) others.push(...again(lines, FROM_DAYS + ((TO_DAYS - FROM_DAYS) * time) / times, time));
  others.length = Math.max(0, wanted - own);
  for (let from = 0; from < others.length; from += AT_ONCE) {
    await phone.page.evaluate(async (some) => {
      const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
      const store = (await asked(indexedDB.open('sweepbell'))).transaction('fresh', 'readwrite').objectStore('fresh');
      for (const other of some) store.put(other);
      await new Promise((done) => (store.transaction.oncomplete = done));
    }, others.slice(from, from + AT_ONCE));
  }
  return own + others.length;
}

// How large the phone's tally is and how many lines of others it stands for, and how many came since; null where there is none.
export async function tallyOf(phone) {
  return phone.page.evaluate(async () => {
    const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const database = await asked(indexedDB.open('sweepbell'));
    const [kv, others, fresh] = ['kv', 'others', 'fresh'].map((name) => database.transaction(name).objectStore(name));
    const [tally, standsFor, since] = await Promise.all([asked(kv.get('tally')), asked(others.count()), asked(fresh.count())]);
    database.close();
    return tally ? { bytes: tally.bytes.length, standsFor, since } : null;
  });
}

// A log, said by phones of their own so many days before; each time by others.
function again(lines, days, time) {
  const phones = new Map();
  return lines.map((line) => {
    const [head, body] = line.split('.');
    const entry = JSON.parse(Buffer.from(body, 'base64url'));
    if (!phones.has(entry.dev)) {
      const { publicKey, privateKey } = generateKeyPairSync('ed25519');
      phones.set(entry.dev, { key: privateKey, dev: publicKey.export({ format: 'jwk' }).x, seq: 0, prev: '' });
    }
    const phone = phones.get(entry.dev);
    const at = new Date(Math.round(Date.parse(entry.at) - days * DAY_MS)).toISOString().replace('.000Z', 'Z');
    const moved = { ...entry, dev: phone.dev, seq: ++phone.seq, prev: phone.prev, at, session: entry.session && `${entry.session}-${time}` };
    const input = `${head}.${Buffer.from(JSON.stringify(moved)).toString('base64url')}`;
    const jws = `${input}.${sign(null, Buffer.from(input), phone.key).toString('base64url')}`;
    phone.prev = createHash('sha256').update(jws).digest('base64url');
    return { id: `${phone.dev} ${String(phone.seq).padStart(16, '0')}`, jws };
  });
}
