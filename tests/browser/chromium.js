// Which browser, and what it must leave undone: nothing here may reach for a network of its own.

export const CHROMIUM = process.env.SWEEPBELL_CHROMIUM ?? '/usr/bin/chromium';

export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
