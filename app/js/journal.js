// The phone's database, in as few operations as the shell needs. Knows no rule and no entry's meaning.
//
// An act is one transaction with strict durability, and its promise settles on `complete` alone: what resolved is on
// the disk. Faults are thrown as short words: moved, full, lost, or what the browser said.

const NAME = "sweepbell";
const BALLAST_BYTES = 1 << 20;
const CHUNK_BYTES = 65536; // The most that getRandomValues fills at once.
const KEYS = { log: "seq", others: "id", aside: "id", photos: null, kv: null };

// A turn for whatever waits: a touch, a frame. Out of sight nobody waits, and a timer may take a minute there.
export const breathe = async () => document.hidden || (self.scheduler?.yield?.() ?? new Promise((done) => setTimeout(done)));

let opening = null;

function open() {
  opening ??= new Promise((done, fail) => {
    if (!self.indexedDB) return fail("no IndexedDB");
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      for (const [store, keyPath] of Object.entries(KEYS)) {
        asked.result.createObjectStore(store, keyPath ? { keyPath } : undefined);
      }
    };
    asked.onsuccess = () => {
      const db = asked.result;
      db.onclose = () => (opening = null);
      db.onversionchange = () => {
        db.close();
        opening = null;
      };
      done(db);
    };
    asked.onerror = () => fail(word(asked.error));
    asked.onblocked = () => fail("another tab holds an older database");
  }).catch((why) => {
    opening = null;
    throw why;
  });
  return opening;
}

function word(error) {
  switch (error?.name) {
    case "ConstraintError":
      return "moved";
    case "QuotaExceededError":
      return "full";
    case "InvalidStateError":
    case "AbortError":
    case "UnknownError":
      return "lost";
    default:
      return error?.message || String(error);
  }
}

// Runs `work` in one transaction; a lost connection is opened again and the work tried once more.
async function within(stores, mode, work, again = true) {
  const db = await open();
  try {
    return await new Promise((done, fail) => {
      const tx = db.transaction(stores, mode, { durability: "strict" });
      let out, why;
      tx.oncomplete = () => done(out && "result" in out ? out.result : out);
      // A full phone may show only when the whole is committed: then its requests know nothing of it.
      tx.onabort = () => fail(word(tx.error) === "full" ? "full" : (why ?? word(tx.error)));
      tx.onerror = (event) => (why ??= word(event.target.error));
      const stop = (reason) => {
        why ??= reason;
        try {
          tx.abort();
        } catch {
          // It has ended by itself, and says so.
        }
      };
      out = work((store) => tx.objectStore(store), stop);
    });
  } catch (error) {
    const why = typeof error === "string" ? error : word(error);
    if (why !== "lost" || !again) throw why;
    db.close();
    opening = null;
    return within(stores, mode, work, false);
  }
}

// Everything at once: own lines, other devices' lines, the chain's head, and how many lines lie aside.
export async function load() {
  const found = await within(["log", "others", "aside", "kv"], "readonly", (store) => {
    const asked = [
      store("log").getAll(),
      store("others").getAll(),
      store("kv").get("head"),
      store("aside").count(),
    ];
    return { asked };
  });
  const [log, others, head, aside] = found.asked.map((request) => request.result);
  return JSON.stringify({ log, others, head: head ?? null, aside });
}

// Some lines of other devices behind one, in the order of their ids.
export async function othersAfter(id) {
  const range = id ? IDBKeyRange.lowerBound(id, true) : null;
  const { asked } = await within(["others"], "readonly", (store) => ({ asked: store("others").getAll(range, 64) }));
  return JSON.stringify(asked.result);
}

// The lines of one act and the new head, or nothing: `expected` is the head that the act was decided on.
export async function append(expected, next, lines) {
  const write = () =>
    within(["log", "kv"], "readwrite", (store, stop) => {
      const head = store("kv").get("head");
      head.onsuccess = () => {
        const { seq, hash } = head.result ?? { seq: 0, hash: "" };
        const due = JSON.parse(expected);
        if (seq !== due.seq || hash !== due.hash) return stop("moved");
        try {
          for (const line of JSON.parse(lines)) store("log").add(line);
          store("kv").put(JSON.parse(next), "head");
        } catch (error) {
          stop(word(error));
        }
      };
    });
  try {
    await write();
  } catch (why) {
    // The ballast was kept for this moment: the last lines of a session must fit.
    if (why !== "full" || !(await dropBallast())) throw why;
    await write();
  }
}

async function dropBallast() {
  const had = await within(["kv"], "readonly", (store) => store("kv").count("ballast")).catch(() => 0);
  if (!had) return false;
  await within(["kv"], "readwrite", (store) => store("kv").delete("ballast")).catch(() => {});
  return true;
}

// Room kept back for the day that the phone is full. Random, because a run of zeros would be packed to nothing.
export async function keepBallast() {
  if (await within(["kv"], "readonly", (store) => store("kv").count("ballast"))) return;
  const bytes = new Uint8Array(BALLAST_BYTES);
  for (let at = 0; at < bytes.length; at += CHUNK_BYTES) crypto.getRandomValues(bytes.subarray(at, at + CHUNK_BYTES));
  await within(["kv"], "readwrite", (store) => store("kv").put(bytes.buffer, "ballast"));
}

// Puts values into stores and takes keys out of them, all or nothing: [[store, value, key?], ..], [[store, key], ..].
export async function change(puts, deletes) {
  const put = JSON.parse(puts);
  const gone = JSON.parse(deletes);
  const stores = [...new Set([...put, ...gone].map(([store]) => store))];
  if (!stores.length) return;
  await within(stores, "readwrite", (store) => {
    for (const [name, value, key] of put) key === undefined ? store(name).put(value) : store(name).put(value, key);
    for (const [name, key] of gone) store(name).delete(key);
  });
}

export async function kvGet(key) {
  return within(["kv"], "readonly", (store) => store("kv").get(key));
}

export async function kvPut(key, value) {
  await within(["kv"], "readwrite", (store) => store("kv").put(value, key));
}

// Keeps `value` unless there is one already; gives back the one that is kept.
export async function kvOnce(key, value) {
  return within(["kv"], "readwrite", (store) => {
    const had = store("kv").get(key);
    const out = {};
    had.onsuccess = () => {
      out.result = had.result ?? value;
      if (had.result === undefined) store("kv").put(value, key);
    };
    return out;
  });
}

export async function photoPut(sha, bytes) {
  await within(["photos"], "readwrite", (store) => store("photos").put(bytes, sha));
}

// The chain's head alone, to see whether another tab has written.
export async function head() {
  return JSON.stringify((await kvGet("head")) ?? { seq: 0, hash: "" });
}
