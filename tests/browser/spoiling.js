// What a phone's storage does to a line of its log, and what the phone has set aside of it.

// Parts of a signed line, counted from 0 (RFC 7515, 3.1).
const PAYLOAD = 1;
export const SIGNATURE = 2;

// One byte of a part of a line is another one.
export async function damage(phone, seq, part = PAYLOAD) {
  await phone.page.evaluate(
    async ([seq, part]) => {
      const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
      const database = await asked(indexedDB.open('sweepbell'));
      const store = database.transaction('log', 'readwrite').objectStore('log');
      const line = await asked(store.get(seq));
      const parts = line.jws.split('.');
      const was = parts[part];
      parts[part] = was.slice(0, 20) + (was[20] === 'A' ? 'B' : 'A') + was.slice(21);
      await asked(store.put({ ...line, jws: parts.join('.') }));
      database.close();
    },
    [seq, part],
  );
}

export async function asideOf(phone) {
  return phone.page.evaluate(async () => {
    const asked = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
    const database = await asked(indexedDB.open('sweepbell'));
    const lines = await asked(database.transaction('aside').objectStore('aside').getAll());
    database.close();
    return lines;
  });
}
