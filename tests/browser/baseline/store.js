// The state on the phone: one record in IndexedDB, written with strict durability at each act, as the app's journal is.

const asked = (request) => new Promise((done, fail) => ((request.onsuccess = () => done(request.result)), (request.onerror = () => fail(request.error))));

let database;

export async function open() {
  const opening = indexedDB.open('baseline');
  opening.onupgradeneeded = () => opening.result.createObjectStore('state');
  database = await asked(opening);
  const kept = await asked(database.transaction('state').objectStore('state').get('it'));
  return kept ?? fetch('/shop.json').then((answer) => answer.json());
}

// What an act makes of the state, once it is kept.
export async function act(state, what, at) {
  const next = { ...made(state, what, at), log: [{ at, what: Object.values(what).join(' ') }, ...state.log] };
  const writing = database.transaction('state', 'readwrite', { durability: 'strict' });
  writing.objectStore('state').put(next, 'it');
  await new Promise((done, fail) => ((writing.oncomplete = done), (writing.onabort = () => fail(writing.error))));
  return next;
}

function made(state, { kind, id }, at) {
  const toggled = (list, of) => list.map((one) => (one.id === id ? { ...one, ...of(one) } : one));
  switch (kind) {
    case 'arrive':
      return { ...state, session: { room: id, from: at, outBy: at + 2 * 3_600_000 } };
    case 'start':
    case 'stop':
      return { ...state, machines: toggled(state.machines, () => ({ since: kind === 'start' ? at : null })) };
    case 'tick':
      return { ...state, chores: toggled(state.chores, (chore) => ({ done: !chore.done })) };
    default:
      return state;
  }
}
