// Prints what the first visit transfers and fails if it is more than promised.
//
//   node tools/size.mjs dist
//
// kB is 1000 bytes, brotli 11. Everything in the folder counts, the worker's script included,
// but for what LATER names.
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

const LIMITS = { wasm: 260_000, 'first load': 350_000 };
/** Files that no first visit needs. */
const LATER = [];

const folder = process.argv[2];
const names = (await readdir(folder, { recursive: true })).sort();
const size = async (name) => (await stat(join(folder, name))).size;
const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
const row = (...cells) => console.log(cells[0].padEnd(40), ...cells.slice(1).map((cell) => cell.padStart(12)));

const totals = { wasm: 0, 'first load': 0 };
row('file', 'plain', 'transferred');
for (const name of names) {
  if (name.endsWith('.br') || !(await stat(join(folder, name))).isFile()) continue;
  const plain = await size(name);
  const transferred = names.includes(`${name}.br`) ? await size(`${name}.br`) : plain;
  const later = LATER.some((pattern) => pattern.test(name));
  if (name.endsWith('.wasm')) totals.wasm += transferred;
  if (!later) totals['first load'] += transferred;
  row(name, kilobytes(plain), kilobytes(transferred), later ? 'later' : '');
}
for (const [what, limit] of Object.entries(LIMITS)) {
  const over = totals[what] > limit || totals[what] === 0;
  row(what, `limit ${kilobytes(limit)}`, kilobytes(totals[what]), over ? 'TOO LARGE' : 'ok');
  if (over) process.exitCode = 1;
}
