// Reads codes: what fetches and asks the module that does (app/reader). As a worker it answers pictures with texts, beside the
// page; a page in which no worker starts imports it.
//
// A picture at which the module fails is read as none, and the next one has a new module.

export async function reader() {
  const answer = await fetch('/later_reader.wasm');
  if (!answer.ok) throw new Error(`the reader: ${answer.status}`);
  const code = await WebAssembly.compileStreaming(answer);
  let made = await WebAssembly.instantiate(code);
  let turn = 0;
  return async ({ data, width, height }) => {
    made ??= await WebAssembly.instantiate(code);
    const { memory, room, look, text } = made.exports;
    try {
      const at = room(data.length);
      new Uint8Array(memory.buffer, at, data.length).set(data);
      const bytes = look(width, height, turn++);
      return bytes ? new TextDecoder().decode(new Uint8Array(memory.buffer, text(), bytes)) : null;
    } catch {
      made = null;
      return null;
    }
  };
}

if (!self.document) {
  const reading = reader();
  self.onmessage = async ({ data }) => postMessage(await (await reading)(data));
  reading.then(() => postMessage('ready'), () => postMessage('failed'));
}
