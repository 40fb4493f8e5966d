// Whether the hub can ring this phone while it is locked, and letting it: the browser's side, for app/src/shell/push.rs.
//
// What it knows of the browser is asked, not guessed from its name, save that an iPhone or iPad offers push to what stands on
// the home screen alone, and says nothing of it elsewhere.

const worker = async () => navigator.serviceWorker.getRegistration();

function unable() {
  if (self.PushManager && self.Notification && navigator.serviceWorker) return '';
  const { userAgent, maxTouchPoints } = navigator;
  const handheld = /iPhone|iPad/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1);
  const there = matchMedia('(display-mode: standalone)').matches || navigator.standalone;
  return handheld && !there ? 'home-screen' : 'unsupported';
}

// How it stands: a word, or the subscription as JSON. One that another hub's key was given for is none.
export async function state(key) {
  const why = unable();
  if (why) return why;
  if (Notification.permission === 'denied') return 'refused';
  const subscription = await (await worker())?.pushManager.getSubscription();
  const granted = Notification.permission === 'granted';
  return subscription && granted && fits(subscription, key) ? JSON.stringify(subscription) : 'unasked';
}

function fits({ options }, key) {
  const own = options.applicationServerKey;
  return !key || !own || base64url(own) === key;
}

const base64url = (bytes) => btoa(String.fromCharCode(...new Uint8Array(bytes))).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');

// Asks the member, if nobody has yet, and subscribes. Must be called by a touch, and asks before it waits for anything.
export async function arm(key) {
  const why = unable();
  if (why) return why;
  const allowed = await Notification.requestPermission();
  if (allowed !== 'granted') return allowed === 'denied' ? 'refused' : 'unasked';
  try {
    const { pushManager } = await navigator.serviceWorker.ready;
    const old = await pushManager.getSubscription();
    if (old && !fits(old, key)) await old.unsubscribe();
    return JSON.stringify(await pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: key }));
  } catch {
    return 'failed';
  }
}

export async function end() {
  await (await (await worker())?.pushManager.getSubscription())?.unsubscribe();
}
