// What benches/rules times, on the module compiled for wasm32: node timed.mjs MODULE
// A step of the rules is taken several times and the least counts, so that a busy machine is not taken for a slow one.

import { readFile } from 'node:fs/promises';

const rules = (await WebAssembly.instantiate(await WebAssembly.compile(await readFile(process.argv[2])), {})).exports;
const took = (act) => {
  const begun = performance.now();
  act();
  return performance.now() - begun;
};
const least = (times, act) => Math.min(...Array.from({ length: times }, () => took(act)));
const seeds = 100;

console.log(`wasm32, Node.js ${process.version}`);
for (const sessions of [145, 1450]) {
  const entries = rules.draw_log(sessions);
  const ms = least(20, rules.folded_sessions);
  console.log(`fold of ${entries} entries: ${Math.round(entries / ms)} thousand entries/s`);
}
// The middle and the worst of several looks, after one that does not count.
for (const stays of [20, 60]) {
  const entries = rules.draw_shop(stays);
  const [written, read] = [rules.tally_written, rules.tally_read].map((act) => least(9, act).toFixed(1));
  console.log(`tally of ${entries} entries: ${Math.round(rules.tally_written() / 1000)} KB, written in ${written} ms, read in ${read}`);
  console.log(`pages of ${entries} entries, ms, median and worst of 9`);
  for (let page = 0; rules.page_name(page, 0) !== 0; page += 1) {
    let name = '';
    for (let at = 0; rules.page_name(page, at) !== 0; at += 1) name += String.fromCharCode(rules.page_name(page, at));
    rules.page_lines(page);
    const ms = Array.from({ length: 9 }, () => took(() => rules.page_lines(page))).sort((a, b) => a - b);
    console.log(`  ${name.padEnd(22)}${ms[4].toFixed(1).padStart(8)}${ms[8].toFixed(1).padStart(8)}`);
  }
}
console.log('plan, ms, median and worst of 100 seeds\nchores  1 person    2           3           4           5           6');
const all = [];
for (let chores = 1; chores <= 12; chores += 1) {
  const cells = [];
  for (let crew = 1; crew <= 6; crew += 1) {
    const ms = Array.from({ length: seeds }, (_, seed) => {
      rules.draw_plan(seed, chores, crew);
      return least(3, rules.planned);
    }).sort((a, b) => a - b);
    all.push(...ms);
    cells.push(`${ms[seeds / 2].toFixed(2)} ${ms[seeds - 1].toFixed(2)}`.padEnd(12));
  }
  console.log(`${String(chores).padEnd(6)}  ${cells.join('')}`.trimEnd());
}
all.sort((a, b) => a - b);
console.log(`all ${all.length}: median ${all[all.length / 2].toFixed(2)} ms, worst ${all[all.length - 1].toFixed(1)} ms, over 5 ms ${all.filter((ms) => ms > 5).length}`);
