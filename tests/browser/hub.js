// A hub for a test: the built `sweepbell` on a free port, with a data folder of its own.
//
// It is started, stopped, killed and restarted as a shop's would be; a restart keeps port, data and join code, so that
// phones find it again. Nothing of it is faked.

import { spawn, spawnSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const BINARY = process.env.SWEEPBELL_BIN ?? join(ROOT, 'target/debug/sweepbell');
export const DIST = process.env.SWEEPBELL_DIST ?? join(ROOT, 'dist');
const START_LIMIT_MS = 20_000;
const STOP_LIMIT_MS = 10_000;

// Starts a hub. Options: `shop` and `members` (files; else the demo shop), `dist`, `dataDir`, `args` (more words for
// `sweepbell serve`).
export async function startHub(options = {}) {
  const own = options.dataDir ? null : await mkdtemp(join(tmpdir(), 'sweepbell-hub-'));
  const hub = new Hub({ ...options, dataDir: options.dataDir ?? own }, own);
  await hub.start();
  return hub;
}

// A log of many weeks is longer than a child process may write by default.
const ANSWER_BYTES_MAX = 64 * 1024 * 1024;

// Runs another subcommand of the same program and returns { status, stdout, stderr }.
export function sweepbell(...args) {
  const { status, stdout, stderr, error } = spawnSync(BINARY, args, { encoding: 'utf8', cwd: ROOT, maxBuffer: ANSWER_BYTES_MAX });
  if (error) throw error;
  return { status, stdout, stderr };
}

class Hub {
  #options;
  #ownFolder;
  #child = null;
  #exited = null;
  // A free port at first, the same one after that.
  #listen = '127.0.0.1:0';

  // Where phones reach it: a loopback address, which browsers trust with a camera and a service worker.
  origin = '';
  // What a phone joins the demo shop with; a shop of one's own has no such code.
  joinCode = '';
  // Everything it has printed, for when a test fails.
  said = '';

  constructor(options, ownFolder) {
    this.#options = options;
    this.#ownFolder = ownFolder;
  }

  get dataDir() {
    return this.#options.dataDir;
  }

  async start() {
    const { shop, members, dist = DIST, dataDir, args = [] } = this.#options;
    const words = ['serve', '--data', dataDir, '--dist', dist, '--listen', this.#listen];
    if (shop) words.push('--shop', shop, '--members', members);
    if (this.joinCode) words.push('--join-code', this.joinCode);
    const child = spawn(BINARY, [...words, ...args], { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] });
    this.#child = child;
    this.#exited = new Promise((done) => child.once('exit', done));
    await this.#announced(child);
  }

  // Resolves once it has said where it listens and how to join.
  #announced(child) {
    return new Promise((done, fail) => {
      let heard = '';
      const limit = setTimeout(() => fail(new Error(`the hub said nothing in time:\n${this.said}`)), START_LIMIT_MS);
      const hear = (chunk) => {
        this.said += chunk;
        heard += chunk;
        const origin = /listening on (\S+)/.exec(heard)?.[1];
        const way = /(?:join code (\S+)|invite code \S+ .*|no invite: .*)\n/.exec(heard);
        if (!origin || !way) return;
        clearTimeout(limit);
        this.origin = origin;
        this.#listen = new URL(origin).host;
        this.joinCode = way[1] ?? '';
        done();
      };
      child.stdout.setEncoding('utf8').on('data', hear);
      child.stderr.setEncoding('utf8').on('data', (chunk) => (this.said += chunk));
      child.once('error', fail);
      child.once('exit', (status) => {
        clearTimeout(limit);
        fail(new Error(`the hub ended with ${status}:\n${this.said}`));
      });
    });
  }

  // A code for a member's phone: the demo's, or a one-time code made on the hub's machine.
  codeFor(member) {
    return this.joinCode || this.steward('invite', 'make', member, '--another').code;
  }

  // What a steward does on the hub's machine, and what it answers.
  steward(...words) {
    const { shop, members, dataDir } = this.#options;
    const which = shop ? ['--shop', shop, '--members', members] : ['--demo'];
    const { status, stdout, stderr } = sweepbell(...words, ...which, '--data', dataDir);
    if (status !== 0) throw new Error(stderr);
    return stdout ? JSON.parse(stdout) : null;
  }

  // Asks it to stop, as a shop's machine does when it shuts down; returns its exit status.
  async stop() {
    return this.#end('SIGTERM');
  }

  // A power cut: it gets no chance to say goodbye.
  async kill() {
    return this.#end('SIGKILL');
  }

  async restart() {
    if (this.#child) await this.stop();
    await this.start();
  }

  // Another hub in its place: same address, same join code, a data folder of its own.
  async moveTo(dataDir) {
    if (this.#child) await this.stop();
    this.#options = { ...this.#options, dataDir };
    await this.start();
  }

  // Stops it and removes its folder.
  async dispose() {
    if (this.#child) await this.stop();
    if (this.#ownFolder) await rm(this.#ownFolder, { recursive: true, force: true });
  }

  async #end(signal) {
    const child = this.#child;
    if (!child) return null;
    this.#child = null;
    child.kill(signal);
    const late = setTimeout(() => child.kill('SIGKILL'), STOP_LIMIT_MS);
    const status = await this.#exited;
    clearTimeout(late);
    return status;
  }
}
