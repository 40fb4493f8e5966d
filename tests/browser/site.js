// The built app without a hub: a plain file server whose builds and answers a test can change at will.
//
// For what concerns the service worker alone. Whatever involves the log goes through a real hub; see hub.js.

import { createServer } from 'node:http';
import { readFile } from 'node:fs/promises';
import { dirname, extname, join, normalize, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const DIST = process.env.SWEEPBELL_DIST ?? join(ROOT, 'dist');
const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.svg': 'image/svg+xml',
  '.webmanifest': 'application/manifest+json',
};

// A page that is no part of the app, and not among the kept files.
export const BLANK = '/blank.html';

export async function startSite() {
  const site = new Site();
  await new Promise((done) => site.server.listen(0, '127.0.0.1', done));
  site.origin = `http://127.0.0.1:${site.server.address().port}`;
  return site;
}

class Site {
  origin = '';
  // A word that makes the served worker and page another build.
  build = '';
  // Files that are not there for now.
  missing = null;
  // Paths asked for, in order.
  asked = [];
  // Bodies posted to /api/push.
  subscribed = [];
  // Bodies posted to /api/sync, and the status that they are answered with.
  synced = [];
  syncStatus = 200;

  server = createServer((request, response) => this.#answer(request, response).catch((why) => response.destroy(why)));

  async stop() {
    this.server.closeAllConnections();
    await new Promise((done) => this.server.close(done));
  }

  async #answer(request, response) {
    const { pathname } = new URL(request.url, this.origin);
    this.asked.push(pathname);
    if (pathname.startsWith('/api/')) return this.#api(request, response, pathname);
    const file = extname(pathname) ? pathname : '/index.html';
    const bytes = await this.#file(file);
    response.writeHead(bytes ? 200 : 404, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-cache' });
    response.end(bytes && this.#ofBuild(file, bytes));
  }

  async #file(file) {
    if (file === BLANK) return Buffer.from('<!doctype html><title>blank</title>');
    if (this.missing?.test(file)) return null;
    return readFile(join(DIST, normalize(file))).catch(() => null);
  }

  // The name of a build is in the worker and in the page, and in no other file.
  #ofBuild(file, bytes) {
    if (!this.build || !['/sw.js', '/index.html'].includes(file)) return bytes;
    return bytes.toString().replaceAll(/(BUILD = '|name="build" content=")[0-9a-f]+/g, `$1${this.build}`);
  }

  async #api(request, response, pathname) {
    let body = '';
    for await (const chunk of request) body += chunk;
    if (request.method === 'POST' && pathname === '/api/push') this.subscribed.push(JSON.parse(body));
    if (request.method === 'POST' && pathname === '/api/sync') this.synced.push(JSON.parse(body));
    response.writeHead(pathname === '/api/sync' ? this.syncStatus : 404, { 'content-type': 'application/json' });
    response.end('{}');
  }
}
