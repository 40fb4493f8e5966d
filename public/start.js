// Starts the app. A file of its own, because the content policy allows no script inside the page.
// It must never leave a blank page: what went wrong is said in words, with the way on.

try {
  const { default: init } = await import('/app.js');
  await init({ module_or_path: '/app_bg.wasm' });
} catch (why) {
  console.error(why);
  const failed = document.getElementById('start-failed');
  if (failed) failed.hidden = false;
}
