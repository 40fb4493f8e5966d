// The bell's voice: two rising tones, a shake, and a notice of the phone's own. Decides nothing about when.

let audio = null;

// Browsers give sound to a page only once it has been touched.
export function unlockOnTouch() {
  const unlock = () => {
    try {
      audio ??= new AudioContext();
      audio.resume();
    } catch {
      audio = null;
    }
  };
  for (const kind of ["pointerdown", "keydown"]) addEventListener(kind, unlock, { passive: true });
}

// Whether a ring would be heard, as far as the browser tells.
export const audible = () => audio?.state === "running";

// `rounds` times a low tone and a higher one. The pair is told apart from machines by its step, not by its loudness.
export function ring(lowHz, highHz, rounds) {
  if (!audio) return;
  audio.resume();
  const level = audio.createDynamicsCompressor();
  level.connect(audio.destination);
  let at = audio.currentTime + 0.02;
  for (let round = 0; round < rounds; round++) {
    for (const hz of [lowHz, highHz]) {
      const tone = audio.createOscillator();
      const gain = audio.createGain();
      tone.type = "square";
      tone.frequency.value = hz;
      gain.gain.setValueAtTime(0, at);
      gain.gain.linearRampToValueAtTime(0.9, at + 0.02);
      gain.gain.setValueAtTime(0.9, at + 0.26);
      gain.gain.linearRampToValueAtTime(0, at + 0.3);
      tone.connect(gain).connect(level);
      tone.start(at);
      tone.stop(at + 0.3);
      at += 0.32;
    }
    at += 0.25;
  }
}

export function shake(pattern) {
  navigator.vibrate?.(Array.from(pattern));
}

// granted, denied, default, or none where there are no notices.
export const noticesAllowed = () => self.Notification?.permission ?? "none";

export async function askForNotices() {
  return (await self.Notification?.requestPermission?.()) ?? "none";
}

// One notice per tag: a later bell takes the earlier one's place. False when none could be shown.
export async function notice(title, body, tag) {
  try {
    if (self.Notification?.permission !== "granted") return false;
    const worker = await navigator.serviceWorker?.getRegistration();
    if (!worker) return false;
    await worker.showNotification(title, { body, tag, renotify: true, requireInteraction: true, icon: "/icons/sweepbell-192.png" });
    return true;
  } catch {
    return false;
  }
}

// The bell was heard: its notice has no more to say.
export async function closeNotices(tag) {
  const worker = await navigator.serviceWorker?.getRegistration().catch(() => undefined);
  for (const shown of (await worker?.getNotifications({ tag })) ?? []) shown.close();
}
