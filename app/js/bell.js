// The bell's voice: two rising tones, a shake, its words aloud, and a notice of the phone's own. Decides nothing about when.

// How bells come on this phone, as its owner chose: "mute" (flash and shake alone), "say" (aloud as well), "night" (softer).
const KEPT = "sweepbell.bells";
const NIGHT = { from: 22, until: 7, level: 0.25 };

export const manner = () => localStorage.getItem(KEPT) ?? "";
export function setManner(words) {
  localStorage.setItem(KEPT, words);
  flashAsChosen();
}
const chose = (word) => manner().includes(word);
// Whoever hears nothing sees the flash, even where motion is unwanted elsewhere: slower then.
const flashAsChosen = () => document.documentElement.classList.toggle("bells-seen", chose("mute"));

// How loud, from 0 to 1, at an hour of the phone's own clock.
export function level(words, hour) {
  if (words.includes("mute")) return 0;
  const night = hour >= NIGHT.from || hour < NIGHT.until;
  return words.includes("night") && night ? NIGHT.level : 1;
}

let audio = null;
// It has run once, and so may be started again by a ring.
let unlocked = false;
// The page was out of sight since: some phones then want another touch.
let away = false;
// The last tone of the latest ring, until it is over.
let sounding = null;
let said = "";

// Browsers give sound to a page only once it has been touched. Between rings it rests: what runs keeps a phone's loudspeaker
// awake, with nothing to say.
export function unlockOnTouch() {
  flashAsChosen();
  const unlock = async () => {
    if (audible() && !away) return;
    away = false;
    try {
      audio ??= new AudioContext();
      await audio.resume();
      unlocked = true;
      rest();
    } catch {
      // The next touch tries again.
    }
  };
  addEventListener("visibilitychange", () => (away = true));
  for (const kind of ["pointerdown", "keydown"]) addEventListener(kind, unlock, { passive: true });
}

// Whether a ring would be heard, as far as the browser tells: a call or another app may have taken the sound away.
export const audible = () => unlocked && audio.state !== "interrupted";

const rest = () => sounding || audio.suspend();

export function ring(lowHz, highHz, rounds) {
  aloud(said);
  const loud = level(manner(), new Date().getHours());
  if (!audio || !loud) return;
  audio.resume();
  sounding = sound(audio, audio.currentTime + 0.02, lowHz, highHz, rounds, loud);
  sounding.onended = ({ target }) => {
    if (sounding === target) sounding = null;
    rest();
  };
}

// `rounds` times a low tone and a higher one, the first round softer: a start makes nobody jump at a machine. The pair is told
// apart from machines by its step, not by its loudness. Returns the last tone.
export function sound(into, at, lowHz, highHz, rounds, loud) {
  const out = into.createGain();
  out.gain.value = loud;
  out.connect(into.destination);
  let tone;
  for (let round = 0; round < rounds; round++) {
    const peak = round ? 0.9 : 0.45;
    for (const hz of [lowHz, highHz]) {
      tone = into.createOscillator();
      const gain = into.createGain();
      tone.type = "square";
      tone.frequency.value = hz;
      gain.gain.setValueAtTime(0, at);
      gain.gain.linearRampToValueAtTime(peak, at + 0.02);
      gain.gain.setValueAtTime(peak, at + 0.26);
      gain.gain.linearRampToValueAtTime(0, at + 0.3);
      tone.connect(gain).connect(out);
      tone.start(at);
      tone.stop(at + 0.3);
      at += 0.32;
    }
    at += 0.25;
  }
  return tone;
}

// A phone that is felt and not heard shakes twice as long.
export function shake(pattern) {
  const once = Array.from(pattern);
  navigator.vibrate?.(chose("mute") ? [...once, 300, ...once] : once);
}

export const speaks = () => Boolean(self.speechSynthesis);

function aloud(text) {
  if (!text || !chose("say") || !speaks()) return;
  const words = new SpeechSynthesisUtterance(text);
  words.lang = document.documentElement.lang;
  speechSynthesis.cancel();
  speechSynthesis.speak(words);
}

// granted, denied, default, or none where there are no notices.
export const noticesAllowed = () => self.Notification?.permission ?? "none";

export async function askForNotices() {
  return (await self.Notification?.requestPermission?.()) ?? "none";
}

// One notice per tag: a later bell takes the earlier one's place. False when none could be shown.
export async function notice(title, body, tag) {
  said = `${title} ${body}`;
  aloud(said);
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
  said = "";
  self.speechSynthesis?.cancel();
  const worker = await navigator.serviceWorker?.getRegistration().catch(() => undefined);
  for (const shown of (await worker?.getNotifications({ tag })) ?? []) shown.close();
}
