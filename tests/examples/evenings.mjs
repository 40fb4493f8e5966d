// The same as evenings.rs, by the module compiled for wasm32: node evenings.mjs MODULE SEEDS.
// The module is given nothing to import. If it needs something, the rules have reached for the world outside.

import { readFile, writeFile } from 'node:fs/promises';

const [, , file, seeds, out] = process.argv;
const module = await WebAssembly.compile(await readFile(file));
const wanted = WebAssembly.Module.imports(module).map(({ module, name }) => `${module}.${name}`);
if (wanted.length > 0) throw new Error(`the rules import ${wanted.join(', ')}`);

const { evening, byte } = (await WebAssembly.instantiate(module, {})).exports;
const parts = Array.from({ length: Number(seeds) }, (_, seed) => Uint8Array.from({ length: evening(seed) }, (_, at) => byte(at)));
await writeFile(out, Buffer.concat(parts));
