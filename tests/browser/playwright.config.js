// How the browser tests run: Debian's Chromium, a phone held upright, three files at a time (xtask/src/browser.rs); of those that look at
// screens as they stand each test by itself.
// `cargo xtask test` builds the app and the hub first and says where they are; see hub.js.

import { defineConfig } from '@playwright/test';
import { CHROMIUM, CHROMIUM_FLAGS, WINDOWLESS } from './chromium.js';
import { PHONE } from './phone.js';

// Each screen in each state, theme, size and language: most of the time of all tests, and none of it waiting.
const LOOKS = specs('accessibility', 'gallery', 'spoken');

// What the browser has a part in as a whole: its notices and sound, its start, its end, and the app that it keeps.
const WHOLE = specs('journey', 'killed', 'offline_start', 'pocket', 'reach', 'service_worker', 'sound', 'two_tabs', 'update');

const launchOptions = { executablePath: WINDOWLESS, args: CHROMIUM_FLAGS };

function specs(...names) {
  return names.map((name) => `**/${name}.spec.js`);
}

export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.js',
  projects: [
    { name: 'whole', testMatch: WHOLE, use: { launchOptions: { ...launchOptions, executablePath: CHROMIUM } } },
    { name: 'acts', testIgnore: [...LOOKS, ...WHOLE] },
    // Last: they fill whatever the longest of the others leave.
    { name: 'looks', testMatch: LOOKS, fullyParallel: true },
  ],
  outputDir: 'results',
  snapshotPathTemplate: '{testDir}/gallery.pictures/{arg}{ext}',
  // By hand, one test after the other.
  workers: 1,
  forbidOnly: true,
  // What passes at the second try alone is named as flaky, and more than two of those are a failure (xtask/src/program.rs).
  retries: 1,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: [['list']],
  use: {
    ...PHONE,
    actionTimeout: 10_000,
    // Recorded at the second try alone: a recording takes two fifths of a run.
    trace: 'on-first-retry',
    launchOptions,
  },
});
