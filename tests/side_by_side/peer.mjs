// The other side of `cargo xtask bench --sync`: the same documents by PouchDB, to a server of its protocol and back.
//
// `node peer.mjs URL DOCUMENTS`: a database in memory for each phone and reader, replicated to and from one at the server.
// Says the same lines on the same cues as main.rs. Batches of 500, which was quicker than its own 100. Nothing ships.

import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import PouchDB from "pouchdb-node";
import memory from "pouchdb-adapter-memory";

const READERS = 5;
const OPTIONS = { batch_size: 500 };

PouchDB.plugin(memory);

const [url, file] = process.argv.slice(2);
const documents = readFileSync(file, "utf8").trimEnd().split("\n").map((line) => JSON.parse(line));
const phones = new Map();
for (const document of documents) {
  const phone = document._id.split("-")[0];
  phones.set(phone, [...(phones.get(phone) ?? []), document]);
}
const local = (name) => new PouchDB(name, { adapter: "memory" });
const writers = [];
for (const [phone, said] of phones) {
  const database = local(phone);
  await database.bulkDocs(said);
  writers.push(database);
}
const all = local("one");
await all.bulkDocs(documents);
const [hub, other] = [new PouchDB(`${url}/shop`), new PouchDB(`${url}/other`)];
await Promise.all([hub.info(), other.info()]);

let [rounds, readers] = [0, []];
async function read(count) {
  rounds += 1;
  readers = Array.from({ length: count }, (_, nth) => local(`reader ${rounds} ${nth}`));
  await Promise.all(readers.map((reader) => reader.replicate.from(hub, OPTIONS)));
}

const cues = {
  in: () => Promise.all(writers.map((writer) => writer.replicate.to(hub, OPTIONS))),
  early: () => read(1),
  again: () => Promise.all(writers.map((writer) => writer.replicate.to(hub, OPTIONS))),
  out: () => read(READERS),
  one: () => all.replicate.to(other, OPTIONS),
};

console.log("ready");
for await (const cue of createInterface({ input: process.stdin })) {
  const began = process.hrtime.bigint();
  await cues[cue]();
  const seconds = Number(process.hrtime.bigint() - began) / 1e9;
  for (const reader of readers) {
    const { doc_count: count } = await reader.info();
    if (count !== documents.length) throw new Error(`${count} of ${documents.length} documents arrived`);
  }
  console.log(`${cue} ${seconds.toFixed(6)}`);
}
process.exit(0);
