// Small things of the phone and the page: the screen's light, wake-ups, other tabs, and new versions of the app.

// Keeping the screen lit. The browser lets go whenever the page is hidden, so it is asked again when it is seen.
let wanted = false;
let light = null;

async function lit() {
  if (!wanted || light || document.hidden || !navigator.wakeLock) return;
  try {
    light = await navigator.wakeLock.request("screen");
    light.onrelease = () => (light = null);
    if (!wanted) light.release();
  } catch {
    light = null;
  }
}

export function keepLit(on) {
  if (wanted === on) return;
  wanted = on;
  if (on) lit();
  else light?.release();
}

export const isLit = () => light !== null;

document.addEventListener("visibilitychange", lit);

// Everything that may follow a sleep, by one name.
export function onWake(told) {
  const seen = () => document.hidden || told("visible");
  document.addEventListener("visibilitychange", seen);
  document.addEventListener("resume", () => told("resume"));
  for (const kind of ["pageshow", "focus", "online"]) addEventListener(kind, () => told(kind));
}

// A page that nobody sees wakes the phone less often: what is due then is some seconds late at most.
const OUT_OF_SIGHT = 5;

export function every(ms, told) {
  const again = () => setTimeout(() => (again(), told()), document.hidden ? OUT_OF_SIGHT * ms : ms);
  again();
}

export const now = () => Date.now();
export const steady = () => performance.now();

// Whether the page was seen all the time since the last asking: a page out of sight may have been asleep.
let seen = !document.hidden;
document.addEventListener("visibilitychange", () => (seen &&= !document.hidden));

export function seenSince() {
  const was = seen;
  seen = !document.hidden;
  return was;
}
export const origin = () => location.origin;

// A lock across tabs: resolves to what lets go of it; to undefined where it is taken and `atOnce` is set; to nothing
// that matters where there are no locks.
export function acquire(name, atOnce) {
  if (!navigator.locks) return Promise.resolve(() => {});
  return new Promise((got, fail) => {
    const held = (lock) => (lock ? new Promise((release) => got(release)) : got(undefined));
    navigator.locks.request(name, { ifAvailable: atOnce }, held).catch(fail);
  });
}

const channel = self.BroadcastChannel ? new BroadcastChannel("sweepbell") : null;

export function tellTabs() {
  channel?.postMessage("written");
}

export function onTold(told) {
  if (channel) channel.onmessage = () => told();
}

// The service worker. `waiting()` is told when a new version stands ready; it takes over only when asked to.
let waitingWorker = null;
let reloading = false;

export async function register(path, waiting) {
  const workers = navigator.serviceWorker;
  if (!workers) return;
  let had = Boolean(workers.controller);
  workers.addEventListener("controllerchange", () => {
    // The first worker takes a page that has none: that is no new version.
    if (had && !reloading) {
      reloading = true;
      location.reload();
    }
    had = true;
  });
  try {
    const registration = await workers.register(path);
    const ready = () => {
      if (!registration.waiting || !workers.controller) return;
      waitingWorker = registration.waiting;
      waiting();
    };
    ready();
    registration.addEventListener("updatefound", () => {
      registration.installing?.addEventListener("statechange", ready);
    });
    document.addEventListener("visibilitychange", () => document.hidden || registration.update().catch(() => {}));
  } catch {
    // Without a worker the app runs as long as the network does.
  }
}

export function takeOver() {
  waitingWorker?.postMessage("take_over");
}

// Asks the browser to wake the worker, and so the app, once there is a network again.
export async function askForBackgroundSync(tag) {
  try {
    const registration = await navigator.serviceWorker?.ready;
    await registration?.sync?.register(tag);
  } catch {
    // A bonus where there is one.
  }
}

export function onWorkerMessage(told) {
  navigator.serviceWorker?.addEventListener("message", (event) => {
    if (typeof event.data === "string") told(event.data);
  });
}

// Asks the browser not to clear the log when space runs short; it may say no.
export async function askToStay() {
  return (await navigator.storage?.persist?.()) ?? false;
}

export const reload = () => location.reload();

// The later part of the app and its styles, which nothing of it is drawn without; the page's script knows how to get it.
export const fetchLater = async () => {
  const styles = Object.assign(document.createElement('link'), { rel: 'stylesheet', href: '/later.css' });
  const styled = new Promise((done) => (styles.onload = styles.onerror = done));
  document.head.append(styles);
  await Promise.all([globalThis.sweepbellLater(), styled]);
};

// Once the page has nothing else to do; where a browser cannot say so, soon.
export const whenIdle = () =>
  new Promise((idle) => (self.requestIdleCallback ?? setTimeout)(idle, self.requestIdleCallback ? { timeout: 4000 } : 500));

export const words = () => globalThis.sweepbellWords;
