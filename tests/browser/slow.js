// A page on a slower processor, its workers too: the process that runs them is stopped and let go on, many times a second. The
// browser's own way to do that slows the page alone, and leaves its workers as quick as the machine is.

import { Worker } from 'node:worker_threads';

// Slows all processes of a browser that run pages, so many times. Gives back what ends it.
export async function slowedWhole(browser, times) {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  const pids = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
  const word = new Int32Array(new SharedArrayBuffer(4));
  const stopping = new Worker(new URL('stopping.js', import.meta.url), { workerData: { pids, times, word } });
  return async () => {
    Atomics.store(word, 0, 1);
    await new Promise((done) => stopping.once('exit', done));
  };
}
