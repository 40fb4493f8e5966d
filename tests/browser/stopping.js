// The thread of slow.js: stops processes for most of each period, until it is told to end, and leaves them running.

import { workerData } from 'node:worker_threads';

const PERIOD_MS = 12;
const { pids, times, word } = workerData;
const still = (ms) => Atomics.wait(word, 0, 0, ms);

while (Atomics.load(word, 0) === 0) {
  for (const pid of pids) process.kill(pid, 'SIGSTOP');
  still(PERIOD_MS - PERIOD_MS / times);
  for (const pid of pids) process.kill(pid, 'SIGCONT');
  still(PERIOD_MS / times);
}
