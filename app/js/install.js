// How this browser puts the app on the home screen: by asking at once, by steps that the member takes, or not at all.

let offer = null;
addEventListener("beforeinstallprompt", (event) => {
  event.preventDefault();
  offer = event;
});

// 0: it is there already. 1: the browser will ask. 2: iPhone or iPad. 3: Android. 4: a computer.
export function way() {
  if (matchMedia("(display-mode: standalone)").matches || navigator.standalone) return 0;
  if (offer) return 1;
  const { userAgent, maxTouchPoints } = navigator;
  if (/iPhone|iPad/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1)) return 2;
  return /Android/.test(userAgent) ? 3 : 4;
}

// Must follow a touch.
export function ask() {
  offer?.prompt();
  offer = null;
}
