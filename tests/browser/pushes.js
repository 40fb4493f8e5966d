// Pushes in a test: a push service on loopback that opens what a hub sends with other programs than the hub's (`http_ece`,
// OpenSSL), and a browser that is handed what was in it by its debugger, since no push service of the world reaches it here.

import { createECDH, createPublicKey, randomBytes, verify } from 'node:crypto';
import { createServer } from 'node:http';
import { expect } from '@playwright/test';
import ece from 'http_ece';

// A push service for one phone.
export async function startPushService() {
  const service = new PushService();
  await new Promise((done) => service.server.listen(0, '127.0.0.1', done));
  service.origin = `http://127.0.0.1:${service.server.address().port}`;
  return service;
}

class PushService {
  origin = '';
  // What was in the messages so far, oldest first.
  told = [];
  // When each came, in milliseconds.
  came = [];
  faults = [];

  #keys = createECDH('prime256v1');
  #auth = randomBytes(16);
  server = createServer((request, response) => this.#take(request, response));

  constructor() {
    this.#keys.generateKeys();
  }

  // What a browser would have of it.
  get subscription() {
    const keys = { p256dh: this.#keys.getPublicKey('base64url'), auth: this.#auth.toString('base64url') };
    return { endpoint: `${this.origin}/phone`, expirationTime: null, keys };
  }

  async stop() {
    this.server.closeAllConnections();
    await new Promise((done) => this.server.close(done));
    expect(this.faults).toEqual([]);
  }

  async #take(request, response) {
    // A page that is none of the app's.
    if (request.method === 'GET') return response.writeHead(200, { 'content-type': 'text/html' }).end('<!doctype html><title>elsewhere</title>');
    const parts = [];
    for await (const part of request) parts.push(part);
    try {
      expect(request.url).toBe('/phone');
      expect(request.headers).toMatchObject({ 'content-encoding': 'aes128gcm', urgency: 'high', ttl: expect.stringMatching(/^\d+$/) });
      this.#identify(request.headers.authorization);
      const opened = ece.decrypt(Buffer.concat(parts), { version: 'aes128gcm', privateKey: this.#keys, authSecret: this.#auth });
      this.told.push(opened.toString());
      this.came.push(Date.now());
      response.writeHead(201).end();
    } catch (why) {
      this.faults.push(String(why));
      response.writeHead(400).end();
    }
  }

  // RFC 8292: the token is signed by the key beside it (ES256: both halves one after the other), for this service.
  #identify(header) {
    const [, head, body, signature, key] = /^vapid t=([\w-]+)\.([\w-]+)\.([\w-]+), k=([\w-]+)$/.exec(header);
    const point = Buffer.from(key, 'base64url');
    const [x, y] = [point.subarray(1, 33), point.subarray(33)].map((half) => half.toString('base64url'));
    const publicKey = createPublicKey({ key: { kty: 'EC', crv: 'P-256', x, y }, format: 'jwk' });
    const signed = Buffer.from(`${head}.${body}`);
    expect(verify('sha256', signed, { key: publicKey, dsaEncoding: 'ieee-p1363' }, Buffer.from(signature, 'base64url'))).toBe(true);
    const claims = JSON.parse(Buffer.from(body, 'base64url').toString());
    expect(claims.aud).toBe(this.origin);
    expect(claims.exp * 1000 - Date.now()).toBeLessThanOrEqual(24 * 3600 * 1000);
  }
}

// Lets the browser subscribe at this service, as it would at its maker's, which it cannot reach here. `refuses` instead of it.
export async function subscribeAt(context, subscription) {
  await context.addInitScript((given) => {
    const made = (key) => given && { ...given, options: { applicationServerKey: key }, toJSON: () => given, unsubscribe: async () => localStorage.removeItem('subscribed') };
    const bytes = (text) => Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (one) => one.charCodeAt(0)).buffer;
    PushManager.prototype.getSubscription = async () => (localStorage.subscribed ? made(bytes(localStorage.subscribed)) : null);
    PushManager.prototype.subscribe = async ({ applicationServerKey }) => {
      if (!given) throw new DOMException('no push service', 'AbortError');
      localStorage.subscribed = applicationServerKey;
      return made(bytes(applicationServerKey));
    };
  }, subscription);
}

// Lets the debugger speak to the worker as the browser would.
export async function debuggerOf(page) {
  const session = await page.context().newCDPSession(page);
  const found = new Promise((done) =>
    session.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => registrations[0] && done(registrations[0].registrationId)),
  );
  await session.send('ServiceWorker.enable');
  return { session, registrationId: await found };
}

// Hands a push to the worker of a site, once; any page will do for that.
export async function deliver(page, origin, data) {
  const { session, registrationId } = await debuggerOf(page);
  await session.send('ServiceWorker.deliverPushMessage', { origin, registrationId, data });
  await session.detach();
}

// What stands in the phone's list of notices, by the page's worker.
export async function notices(page) {
  return page.evaluate(async () => {
    const shown = await (await navigator.serviceWorker.ready).getNotifications();
    return shown.map(({ title, body, tag, silent, requireInteraction, data }) => ({ title, body, tag, silent, requireInteraction, path: data?.path }));
  });
}

// Delivers a push, and gives the notices that stand then. A worker that is still starting can miss what the debugger
// delivers, so it is delivered until it is shown.
export async function pushed(page, origin, data, isShown = (shown) => shown.length > 0) {
  const { session, registrationId } = await debuggerOf(page);
  const text = typeof data === 'string' ? data : JSON.stringify(data);
  let shown = [];
  await expect(async () => {
    await session.send('ServiceWorker.deliverPushMessage', { origin, registrationId, data: text });
    await expect
      .poll(async () => isShown((shown = await notices(page))), { timeout: 1_000 })
      .toBe(true);
  }).toPass();
  await session.detach();
  return shown;
}
