// Starts the app. A file of its own, because the content policy allows no script inside the page.
// It must never leave a blank page: what went wrong is said in words, with the way on.

// Kept from the very first visit, so that the next one needs no network. The app itself decides when a newer
// build may take over; see sw.js.
if ('serviceWorker' in navigator) {
  navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' }).catch((why) => console.warn('not kept for offline use:', why));
}

try {
  const { default: init } = await import('/app.js');
  await init({ module_or_path: '/app_bg.wasm' });
} catch (why) {
  console.error(why);
  const failed = document.getElementById('start-failed');
  if (failed) failed.hidden = false;
}
