// Pictures, for app/js/photo.js: taken and made small; handed to the hub once it holds the line that names them; and shown.
//
// Waits for nobody and stops nothing: what could not be handed over now is handed over after some later sync. What was taken here
// stays here as well, and is shown from here. The database is the app's (app/js/journal.js): used as it is, and let go at once.

const EDGE_PX = 1600;
// Better is tried first; the hub takes no more bytes than these.
const QUALITIES = [0.8, 0.6, 0.4, 0.2];
const BYTES_MOST = 600_000;
const REFUSED_WAITS_MS = 10 * 60_000;
// The hub will never take these; others may still be taken: too large, unfit, as many as are kept.
const OF_ITSELF = [413, 422, 507];

// Resolves to the bytes of a JPEG, drawn anew so that nothing of where and when it was taken stays in it; to undefined when none
// was taken.
export function take() {
  return new Promise((done) => {
    const ask = document.createElement('input');
    ask.type = 'file';
    ask.accept = 'image/*';
    ask.capture = 'environment';
    ask.hidden = true;
    document.body.append(ask);
    const end = (bytes) => {
      ask.remove();
      done(bytes);
    };
    ask.oncancel = () => end(undefined);
    ask.onchange = () => (ask.files[0] ? shrink(ask.files[0]).then(end, () => end(undefined)) : end(undefined));
    ask.click();
  });
}

async function shrink(file) {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, EDGE_PX / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  let blob;
  for (const quality of QUALITIES) {
    blob = await new Promise((done) => canvas.toBlob(done, 'image/jpeg', quality));
    if (blob.size <= BYTES_MOST) break;
  }
  return new Uint8Array(await blob.arrayBuffer());
}

const address = (sha) => `/api/picture/${sha}`;
const asked = (request) => new Promise((done, fail) => ((request.onsuccess = () => done(request.result)), (request.onerror = () => fail(request.error))));

async function within(stores, mode, work) {
  const database = await asked(indexedDB.open('sweepbell'));
  try {
    const change = database.transaction(stores, mode);
    const out = await work((name) => change.objectStore(name));
    if (mode === 'readwrite') await new Promise((done, fail) => ((change.oncomplete = done), (change.onabort = () => fail(change.error))));
    return out;
  } finally {
    database.close();
  }
}

let underWay = false;
let notBefore = 0;

// Hands over what was taken here and what a line that the hub holds names. Which these are is kept beside the log.
export async function hand() {
  if (underWay || Date.now() < notBefore) return;
  underWay = true;
  try {
    for (const sha of await waiting()) {
      const bytes = await within(['photos'], 'readonly', (store) => asked(store('photos').get(sha)));
      const { ok, status } = await fetch(address(sha), { method: 'PUT', headers: { 'content-type': 'image/jpeg' }, body: picture(bytes) });
      if (ok) await note(sha);
      // It does not know the line yet: after the next sync, then.
      else if (status !== 409) notBefore = Date.now() + REFUSED_WAITS_MS;
      if (!ok && status !== 409 && !OF_ITSELF.includes(status)) return;
    }
  } finally {
    underWay = false;
  }
}

const picture = (bytes) => new Blob([bytes], { type: 'image/jpeg' });

async function waiting() {
  const [taken, handed] = await within(['photos', 'kv'], 'readonly', (store) => Promise.all([asked(store('photos').getAllKeys()), asked(store('kv').get('handed'))]));
  const left = taken.filter((sha) => !handed?.includes(sha));
  if (!left.length) return left;
  // A picture of an act that was refused, or not done, belongs to no line and goes nowhere.
  const lines = await within(['log'], 'readonly', (store) => asked(store('log').getAll()));
  const held = lines.filter(({ state }) => state === 'acked').map(({ jws }) => said(jws));
  return left.filter((sha) => held.some((line) => line.includes(`"photo":"${sha}"`)));
}

const said = (jws) => atob(jws.split('.')[1].replaceAll('-', '+').replaceAll('_', '/'));

function note(sha) {
  return within(['photos', 'kv'], 'readwrite', async (store) => {
    const [taken, handed] = await Promise.all([asked(store('photos').getAllKeys()), asked(store('kv').get('handed'))]);
    await asked(store('kv').put([...(handed ?? []).filter((one) => taken.includes(one)), sha], 'handed'));
  });
}

// Pictures that were shown, by their hash, for as long as the page is there.
const shown = new Map();

// Shows a picture in a place that has an image in it, once that is seen: the place's data say whether it is `here` or `missing`.
export async function show(place, sha) {
  if (place.dataset.is === 'here') return;
  await seen(place);
  const from = shown.get(sha) ?? (await own(sha).catch(() => null)) ?? (await theirs(sha).catch(() => null));
  if (from) {
    shown.set(sha, from);
    const image = place.querySelector('img');
    image.src = from;
    await image.decode().catch(() => {});
  }
  place.dataset.is = from ? 'here' : 'missing';
}

function seen(place) {
  return new Promise((done) => {
    const watch = new IntersectionObserver((changes) => {
      if (!changes.some(({ isIntersecting }) => isIntersecting)) return;
      watch.disconnect();
      done();
    });
    watch.observe(place);
  });
}

async function own(sha) {
  const bytes = await within(['photos'], 'readonly', (store) => asked(store('photos').get(sha)));
  return bytes && URL.createObjectURL(picture(bytes));
}

// The browser keeps what it has got: the hub says that it never changes.
async function theirs(sha) {
  const answer = await fetch(address(sha));
  return answer.ok ? URL.createObjectURL(await answer.blob()) : null;
}
