// Looks for a code through the camera that faces away, at most ten times a second, while the page is seen.
//
// The picture is cut to its middle and never leaves this function but as grey values; nothing is kept.

const EVERY_MS = 100;
const SIDE_PX = 640;

async function detector() {
  try {
    const known = await self.BarcodeDetector?.getSupportedFormats();
    return known?.includes("qr_code") ? new BarcodeDetector({ formats: ["qr_code"] }) : null;
  } catch {
    return null;
  }
}

// `read(luma, width, height)` is asked where the browser cannot; `found(text)` is told. Gives back what stops it all.
// Throws none, refused, busy, or what the browser said.
export async function start(video, read, found) {
  if (!navigator.mediaDevices?.getUserMedia) throw "none";
  const own = await detector();
  const canvas = document.createElement("canvas");
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  let stream = null;
  let timer = 0;
  let over = false;

  const dark = () => {
    clearTimeout(timer);
    stream?.getTracks().forEach((track) => track.stop());
    stream = null;
  };
  const light = async () => {
    if (over || stream) return;
    stream = await navigator.mediaDevices.getUserMedia({
      video: { facingMode: { ideal: "environment" }, width: { ideal: 1280 }, height: { ideal: 720 } },
    });
    if (over || document.hidden) return dark();
    video.srcObject = stream;
    video.setAttribute("playsinline", "");
    video.muted = true;
    await video.play().catch(() => {});
    look();
  };
  const look = async () => {
    if (over || !stream) return;
    const began = performance.now();
    try {
      const text = await glance();
      if (text && !over) found(text);
    } catch {
      // A frame that cannot be read is no fault: the next one comes at once.
    }
    timer = setTimeout(look, Math.max(0, EVERY_MS - (performance.now() - began)));
  };
  const glance = async () => {
    const side = Math.min(video.videoWidth, video.videoHeight);
    if (!side) return null;
    if (own) return (await own.detect(video))[0]?.rawValue;
    const size = Math.min(side, SIDE_PX);
    canvas.width = canvas.height = size;
    const left = (video.videoWidth - side) / 2;
    const top = (video.videoHeight - side) / 2;
    pen.drawImage(video, left, top, side, side, 0, 0, size, size);
    const { data } = pen.getImageData(0, 0, size, size);
    const luma = new Uint8Array(size * size);
    for (let at = 0; at < luma.length; at++) {
      luma[at] = (data[4 * at] * 77 + data[4 * at + 1] * 151 + data[4 * at + 2] * 28) >> 8;
    }
    return read(luma, size, size);
  };
  const seen = () => (document.hidden ? dark() : light().catch(() => {}));
  document.addEventListener("visibilitychange", seen);
  const stop = () => {
    over = true;
    document.removeEventListener("visibilitychange", seen);
    dark();
    video.srcObject = null;
  };
  try {
    await light();
  } catch (error) {
    stop();
    throw { NotFoundError: "none", OverconstrainedError: "none", NotAllowedError: "refused", SecurityError: "refused",
      NotReadableError: "busy", AbortError: "busy" }[error?.name] ?? String(error?.message ?? error);
  }
  return stop;
}
