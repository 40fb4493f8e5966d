// What a page costs a phone, counted by the browser: timers that fire, time that its tasks take, requests, words of its streams, bytes.

// Begins to count. Bytes are those of headers and bodies as the browser tells them; of a stream, its words alone.
export async function listened(page) {
  const session = await page.context().newCDPSession(page);
  const seen = { requests: 0, words: 0, sent: 0, received: 0 };
  const length = (headers) => Object.entries(headers ?? {}).reduce((sum, [name, value]) => sum + name.length + String(value).length + 4, 0);
  const streams = new Set();
  session.on('Network.requestWillBeSent', ({ requestId, type, request }) => {
    if (type === 'EventSource') streams.add(requestId);
    if (!request.url.startsWith('http') || !request.url.includes('/api/')) return;
    seen.requests += 1;
    seen.sent += request.url.length + length(request.headers) + (request.postData?.length ?? 0);
  });
  session.on('Network.loadingFinished', ({ encodedDataLength }) => (seen.received += Math.max(0, encodedDataLength)));
  session.on('Network.dataReceived', ({ requestId, dataLength }) => {
    if (!streams.has(requestId)) return;
    seen.words += 1;
    seen.received += dataLength;
  });
  await session.send('Network.enable');
  await session.send('Performance.enable');
  await page.addInitScript(countTimers);
  const counted = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    const of = Object.fromEntries(metrics.map(({ name, value }) => [name, value]));
    const wakes = await page.evaluate(() => globalThis.woken ?? 0);
    return { ...seen, wakes, at: of.Timestamp * 1000, scriptMs: of.ScriptDuration * 1000, taskMs: of.TaskDuration * 1000 };
  };
  return { counted, seen };
}

// In the page: every timer that fires, and every picture that a script asks to draw, is one.
function countTimers() {
  globalThis.woken = 0;
  for (const kind of ['setTimeout', 'setInterval', 'requestAnimationFrame']) {
    const own = globalThis[kind];
    globalThis[kind] = (told, ...given) => own(typeof told === 'function' ? (...of) => ((globalThis.woken += 1), told(...of)) : told, ...given);
  }
}

// The page is told that nobody sees it, and of course goes on: what the browser then slows by itself is not counted on.
export async function outOfSight(page, is) {
  await page.evaluate((is) => {
    Object.defineProperty(document, 'hidden', { configurable: true, get: () => is });
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => (is ? 'hidden' : 'visible') });
    document.dispatchEvent(new Event('visibilitychange'));
  }, is);
}
