// Which browser, and what it must leave undone: nothing here may reach for a network of its own.

export const CHROMIUM = process.env.SWEEPBELL_CHROMIUM ?? '/usr/bin/chromium';

// The same pages, storage and workers without windows, profiles and notices: a fifth less work for whatever asks for none of these.
export const WINDOWLESS = process.env.SWEEPBELL_CHROMIUM ?? '/usr/bin/chromium-headless-shell';

export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

// A camera that sees a video file, for every phone of a browser, and no question whether it may be used.
export function cameraFlags(video) {
  return ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${video}`];
}
