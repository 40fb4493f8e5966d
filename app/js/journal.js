// The phone's database, in as few operations as the shell needs. Knows no rule and no entry's meaning.
//
// An act is one transaction with strict durability, and its promise settles on `complete` alone: what resolved is on
// the disk. Faults are thrown as short words: moved, full, lost, or what the browser said.

const NAME = "sweepbell";
const BALLAST_BYTES = 1 << 20;
const CHUNK_BYTES = 65536; // The most that getRandomValues fills at once.
const VERSION = 2;
const KEYS = { log: "seq", others: "id", fresh: "id", aside: "id", photos: null, kv: null };
const AT_ONCE = 200; // Lines that are moved in one go.

// A turn for whatever waits: a touch, a frame. Out of sight nobody waits, and a timer may take a minute there.
export const breathe = async () => document.hidden || (self.scheduler?.yield?.() ?? new Promise((done) => setTimeout(done)));

let opening = null;

function open() {
  opening ??= new Promise((done, fail) => {
    if (!self.indexedDB) return fail("no IndexedDB");
    const asked = indexedDB.open(NAME, VERSION);
    asked.onupgradeneeded = () => {
      for (const [store, keyPath] of Object.entries(KEYS)) {
        if (asked.result.objectStoreNames.contains(store)) continue;
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

// Everything at once: own lines, other devices' lines, the chain's head, how many lines lie aside, how often one went; and the
// tally that stands for the lines on the shelf `others`, which are then left where they are.
export async function load(whole) {
  const found = await within(["log", "others", "fresh", "aside", "kv"], "readonly", (store) => {
    const tally = store("kv").get("tally");
    const asked = {
      log: store("log").getAll(),
      fresh: store("fresh").getAll(),
      head: store("kv").get("head"),
      losses: store("kv").get("losses"),
      aside: store("aside").count(),
      tally,
    };
    tally.onsuccess = () => {
      if (whole || !tally.result) asked.others = store("others").getAll();
    };
    return { asked };
  });
  const { log, fresh, head, losses, aside, tally, others } = Object.fromEntries(
    Object.entries(found.asked).map(([name, request]) => [name, request.result]),
  );
  if (!others && (await seal(tally.bytes).catch(() => null)) !== tally.seal) {
    await change("[]", '[["kv","tally"]]');
    return load(true);
  }
  const lines = { log, others: [...(others ?? []), ...fresh], head: head ?? null, aside, losses: losses ?? 0 };
  return [JSON.stringify(lines), others ? null : tally.bytes];
}

const seal = async (bytes) => new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)).join();

// Keeps a tally of all lines, if they are those that it was made of: the chain's head, how many others there are, and that none
// has gone. They all lie on the shelf `others` then.
export async function keepTally(head, count, lossesThen, made) {
  const bytes = made.slice();
  const tally = { bytes, seal: await seal(bytes) };
  await within(["others", "fresh", "kv"], "readwrite", (store, stop) => {
    const [kept, losses] = ["head", "losses"].map((key) => store("kv").get(key));
    const move = () => {
      const some = store("fresh").getAll(null, AT_ONCE);
      some.onsuccess = () => {
        for (const line of some.result) store("others").put(line);
        if (some.result.length) {
          store("fresh").delete(IDBKeyRange.upperBound(some.result.at(-1).id));
          return move();
        }
        const others = store("others").count();
        others.onsuccess = () => (others.result === count ? store("kv").put(tally, "tally") : stop("moved"));
      };
    };
    losses.onsuccess = () => {
      const { seq, hash } = kept.result ?? { seq: 0, hash: "" };
      const due = JSON.parse(head);
      if (seq !== due.seq || hash !== due.hash || (losses.result ?? 0) !== lossesThen) return stop("moved");
      move();
    };
  });
}

// Some lines behind one, in the order of their keys; none of those that a tally stands for.
export async function linesAfter(lines, key) {
  const range = key ? IDBKeyRange.lowerBound(key, true) : null;
  const { some, tally } = await within([lines, "kv"], "readonly", (store) => ({
    some: store(lines).getAll(range, 64),
    tally: store("kv").count("tally"),
  }));
  return JSON.stringify(lines === "others" && tally.result ? [] : some.result);
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

// Puts values into stores and takes keys out of them, all or nothing: [[store, value, key?], ..], [[store, key], ..]. Where that
// takes away what a tally was made of, the tally goes too.
export async function change(puts, deletes, takesAway) {
  const put = JSON.parse(puts);
  const gone = JSON.parse(deletes);
  const stores = [...new Set([...put, ...gone].map(([store]) => store))];
  if (!stores.length) return;
  if (takesAway && !stores.includes("kv")) stores.push("kv");
  await within(stores, "readwrite", (store) => {
    for (const [name, value, key] of put) key === undefined ? store(name).put(value) : store(name).put(value, key);
    for (const [name, key] of gone) store(name).delete(key);
    if (!takesAway) return;
    store("kv").delete("tally");
    const losses = store("kv").get("losses");
    losses.onsuccess = () => store("kv").put((losses.result ?? 0) + 1, "losses");
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
