// Prints what the first visit transfers before anybody can type, and each program; fails if it is
// more than promised.
//
//   node tools/size.mjs dist
//
// kB is 1000 bytes, brotli 11. Everything in the folder counts, but for what LATER names.
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

// The page should have 260 kB and must come there: this is where it stands, and it may not grow (the
// last 5 kB came with the one facing of plans, weights and heat, some 4 of them for the worker). The
// first load is what one waits for; the worker's program does all that is only read, and is fetched
// later.
const LIMITS = { 'program of the page': 282_500, 'program of the worker': 534_000, 'first load': 350_000 };
const PROGRAMS = [['program of the page', /^assets\/page.*\.wasm$/], ['program of the worker', /^assets\/worker.*\.wasm$/]];
/** The catalog of a language other than English, fetched where it is spoken. */
const LANGUAGE = /^assets\/[a-z]{2}-.*\.json$/;
/** What is fetched once the page can be used: the worker, when the first one is hired, and what keeps
 *  the page on the device; or by nobody but a careful reader. */
const LATER = [/^assets\/worker/, /^service-worker\.js$/, /^manifest\./, /^(apple-touch-)?icon-?.*\.png$/,
  /\.txt$/, /^SHA256SUMS$/, LANGUAGE];

const folder = process.argv[2];
const names = (await readdir(folder, { recursive: true })).sort();
const size = async (name) => (await stat(join(folder, name))).size;
const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
const row = (...cells) => console.log(cells[0].padEnd(40), ...cells.slice(1).map((cell) => cell.padStart(12)));

const totals = { 'program of the page': 0, 'program of the worker': 0, 'first load': 0, everything: 0 };
row('file', 'plain', 'transferred');
for (const name of names) {
  if (name.endsWith('.br') || !(await stat(join(folder, name))).isFile()) continue;
  const plain = await size(name);
  const transferred = names.includes(`${name}.br`) ? await size(`${name}.br`) : plain;
  const later = LATER.some((pattern) => pattern.test(name));
  totals.everything += transferred;
  for (const [program, pattern] of PROGRAMS) {
    if (pattern.test(name)) totals[program] += transferred;
  }
  if (!later) totals['first load'] += transferred;
  row(name, kilobytes(plain), kilobytes(transferred), later ? 'later' : '');
}
row('everything', '', kilobytes(totals.everything));
for (const [what, limit] of Object.entries(LIMITS)) {
  const over = totals[what] > limit || totals[what] === 0;
  row(what, `limit ${kilobytes(limit)}`, kilobytes(totals[what]), over ? 'TOO LARGE' : 'ok');
  if (over) process.exitCode = 1;
}
