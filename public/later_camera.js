// Looks for a code through the camera that faces away, at most twenty times a second, while the page is seen.
//
// The browser's own detector reads where there is one; else our reader, in a worker beside the page; else, where none starts or
// it falls silent, our reader on the page. The picture is cut to its middle and never leaves these; nothing is kept.

const EVERY_MS = 50;
// After a picture that could not be looked at.
const AGAIN_MS = 1000;
// A worker that says nothing for so long is not there.
const PATIENCE_MS = 5000;
const SIDE_PX = 640;

async function detector() {
  try {
    const known = await self.BarcodeDetector?.getSupportedFormats();
    return known?.includes('qr_code') ? new BarcodeDetector({ formats: ['qr_code'] }) : null;
  } catch {
    return null;
  }
}

// Our reader in a worker. Throws where there is none.
async function beside() {
  const worker = new Worker('/later_reader.js', { type: 'module' });
  const heard = () =>
    new Promise((done, fail) => {
      const late = setTimeout(fail, PATIENCE_MS);
      worker.onmessage = ({ data }) => done(data, clearTimeout(late));
      worker.onerror = fail;
    });
  const close = () => worker.terminate();
  try {
    if ((await heard()) !== 'ready') throw 'failed';
  } catch (why) {
    close();
    throw why;
  }
  const read = ({ data, width, height }) => {
    worker.postMessage({ data, width, height }, [data.buffer]);
    return heard();
  };
  return { read, close, apart: true };
}

// The same on the page.
async function here() {
  const { reader } = await import('/later_reader.js');
  return { read: await reader(), close() {} };
}

// `found(text)` is told of each code. Gives back what stops it all. Throws none, refused, busy, or what the browser said.
export async function start(video, found) {
  if (!navigator.mediaDevices?.getUserMedia) throw 'none';
  let own = await detector();
  let reading = own ? null : beside().catch(here);
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  let stream = null;
  let timer = 0;
  let over = false;
  // Taken while the one before was read elsewhere.
  let ahead = null;

  const dark = () => {
    clearTimeout(timer);
    stream?.getTracks().forEach((track) => track.stop());
    stream = ahead = null;
  };
  const light = async () => {
    if (over || stream) return;
    stream = await navigator.mediaDevices.getUserMedia({
      video: { facingMode: { ideal: 'environment' }, width: { ideal: 1280 }, height: { ideal: 720 } },
    });
    if (over || document.hidden) return dark();
    video.srcObject = stream;
    video.setAttribute('playsinline', '');
    video.muted = true;
    await video.play().catch(() => {});
    look();
  };
  const look = async () => {
    if (over || !stream) return;
    const began = performance.now();
    let pause = EVERY_MS;
    try {
      const text = await glance();
      if (text && !over) found(text);
    } catch {
      pause = AGAIN_MS;
    }
    clearTimeout(timer);
    timer = setTimeout(look, Math.max(0, pause - (performance.now() - began)));
  };
  const glance = async () => {
    const side = Math.min(video.videoWidth, video.videoHeight);
    if (!side) return null;
    if (own) {
      try {
        return (await own.detect(video))[0]?.rawValue;
      } catch {
        // It says that it can, and cannot.
        own = null;
      }
    }
    reading ??= beside().catch(here);
    const asked = reading;
    try {
      const { read, apart } = await asked;
      const text = read(ahead ?? pixels(side));
      ahead = apart ? pixels(side) : null;
      return await text;
    } catch (why) {
      await asked.then(({ close }) => close(), () => {});
      if (reading === asked) reading = here();
      throw why;
    }
  };
  const pixels = (side) => {
    const size = Math.min(side, SIDE_PX);
    if (canvas.width !== size) canvas.width = canvas.height = size;
    pen.drawImage(video, (video.videoWidth - side) / 2, (video.videoHeight - side) / 2, side, side, 0, 0, size, size);
    return pen.getImageData(0, 0, size, size);
  };
  const seen = () => (document.hidden ? dark() : light().catch(() => {}));
  document.addEventListener('visibilitychange', seen);
  const stop = () => {
    over = true;
    document.removeEventListener('visibilitychange', seen);
    dark();
    video.srcObject = null;
    reading?.then(({ close }) => close(), () => {});
  };
  try {
    await light();
  } catch (error) {
    stop();
    throw { NotFoundError: 'none', OverconstrainedError: 'none', NotAllowedError: 'refused', SecurityError: 'refused',
      NotReadableError: 'busy', AbortError: 'busy' }[error?.name] ?? String(error?.message ?? error);
  }
  return stop;
}
