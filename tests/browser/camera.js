// What a phone's camera sees: a video file for a whole browser, or a picture that a test holds in front of one phone.
//
// A picture is a screenshot of what really hangs or shows somewhere; it goes through the app's own camera, its own
// crop and its own decoder.

import { writeFile } from 'node:fs/promises';

const [WIDTH, HEIGHT] = [640, 480];
const FRAMES = 10;

// Gives a context a camera that sees nothing until it is shown something; until then the browser's own is used.
export async function installCamera(context) {
  await context.addInitScript(() => {
    const devices = navigator.mediaDevices;
    if (!devices) return;
    const own = devices.getUserMedia.bind(devices);
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [1280, 720];
    const pen = canvas.getContext('2d');
    let seen = null;
    const draw = () => {
      pen.fillStyle = '#777';
      pen.fillRect(0, 0, canvas.width, canvas.height);
      if (!seen) return;
      // Held a little askew, as hands do.
      const side = canvas.height * 0.86;
      const scale = side / Math.max(seen.width, seen.height);
      pen.setTransform(1, 0.03, -0.03, 1, canvas.width / 2, canvas.height / 2);
      pen.drawImage(seen, (-seen.width * scale) / 2, (-seen.height * scale) / 2, seen.width * scale, seen.height * scale);
      pen.setTransform(1, 0, 0, 1, 0, 0);
    };
    globalThis.holdBeforeCamera = async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      seen = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      draw();
    };
    devices.getUserMedia = async (wanted) => {
      if (!seen) return own(wanted);
      const stream = canvas.captureStream(15);
      // A still canvas gives no frames: it is drawn anew for as long as somebody looks.
      const timer = setInterval(() => {
        draw();
        if (stream.getTracks().every((track) => track.readyState === 'ended')) clearInterval(timer);
      }, 60);
      return stream;
    };
  });
}

// Holds a picture (a PNG) before a phone's camera.
export async function hold(phone, png) {
  await phone.page.evaluate((base64) => globalThis.holdBeforeCamera(base64), png.toString('base64'));
}

// Writes a picture as a video file (YUV4MPEG2, 4:2:0, grey) that a browser takes for its camera.
export async function writeVideo(page, png, file, { size: [width, height] = [WIDTH, HEIGHT], fps = 10 } = {}) {
  const luma = Buffer.from(await page.evaluate(greyOf, { base64: png.toString('base64'), width, height }), 'base64');
  const chroma = Buffer.alloc(((width / 2) * height) / 2 * 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, chroma]);
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F${fps}:1 Ip A1:1 C420jpeg\n`);
  await writeFile(file, Buffer.concat([head, ...Array.from({ length: FRAMES }, () => frame)]));
}

// In the page: the picture on a grey wall, as brightness, row by row.
async function greyOf({ base64, width, height }) {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
  const pen = new OffscreenCanvas(width, height).getContext('2d');
  pen.fillStyle = '#999';
  pen.fillRect(0, 0, width, height);
  const side = height * 0.9;
  pen.drawImage(image, (width - side) / 2, (height - side) / 2, side, side);
  const { data } = pen.getImageData(0, 0, width, height);
  let text = '';
  for (let at = 0; at < data.length; at += 4) {
    text += String.fromCharCode(Math.round(0.299 * data[at] + 0.587 * data[at + 1] + 0.114 * data[at + 2]));
  }
  return btoa(text);
}
