// Takes a picture and makes it small: drawn anew, so that nothing of where and when it was taken stays in it.

const EDGE_PX = 1600;
const QUALITY = 0.8;

// Resolves to the bytes of a JPEG, or to undefined when none was taken.
export function take() {
  return new Promise((done) => {
    const ask = document.createElement("input");
    ask.type = "file";
    ask.accept = "image/*";
    ask.capture = "environment";
    ask.hidden = true;
    document.body.append(ask);
    const end = (bytes) => {
      ask.remove();
      done(bytes);
    };
    ask.oncancel = () => end(undefined);
    ask.onchange = () => (ask.files[0] ? shrink(ask.files[0]).then(end, () => end(undefined)) : end(undefined));
    ask.click();
  });
}

async function shrink(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, EDGE_PX / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", QUALITY));
  return new Uint8Array(await blob.arrayBuffer());
}
