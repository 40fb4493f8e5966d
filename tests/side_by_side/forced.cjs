// Has LevelDB force each write to the disk before it says that it is done, as the hub does: `node -r ./forced.cjs ...`.
// Its adapter for PouchDB never asks for that. There are several copies of it among the packages; each is met as it loads.

const Module = require("module");

const load = Module._load;
const met = new Set();

Module._load = function (request, ...rest) {
  const loaded = load.call(this, request, ...rest);
  if (request === "leveldown" && !met.has(loaded)) {
    met.add(loaded);
    for (const name of ["_put", "_del", "_batch"]) force(loaded.prototype, name);
  }
  return loaded;
};

function force(prototype, name) {
  const plain = prototype[name];
  prototype[name] = function (...words) {
    const options = words.length - 2;
    words[options] = { ...words[options], sync: true };
    return plain.apply(this, words);
  };
}
