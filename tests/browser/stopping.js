// The thread of slow.js: stops processes for most of each period, until it is told to end, and leaves them running.

import { workerData } from 'node:worker_threads';

const PERIOD_MS = 12;
const { pids, times, word } = workerData;
const still = (ms) => Atomics.wait(word, 0, 0, ms);

// What was run for too long, because the machine is busy, is stopped for as many times longer.
while (Atomics.load(word, 0) === 0) {
  const began = performance.now();
  still(PERIOD_MS / times);
  for (const pid of pids) process.kill(pid, 'SIGSTOP');
  still((performance.now() - began) * (times - 1));
  for (const pid of pids) process.kill(pid, 'SIGCONT');
}
