// Prints what the first visit transfers before anybody can type, and each program; fails if it is
// more than promised.
//
//   node tools/size.mjs dist
//
// kB is 1000 bytes, brotli 11. Everything in the folder counts, but for what LATER names.
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

// The page may have 260 kB (P1), the first load 350 (P2): what one waits for. What explains the answers
// below the first screen is a part of its own, fetched when that stands; the worker's program does all
// that is only read, and comes after it. The last two stand close to where they are, so that nobody is
// surprised.
const LIMITS = {
  'program of the page': 260_000,
  'first load': 350_000,
  'its part below': 68_000,
  'program of the worker': 550_000,
};
const PROGRAMS = [
  ['program of the page', /^assets\/page.*\.wasm$/],
  ['its part below', /^assets\/split_below.*\.wasm$/],
  ['program of the worker', /^assets\/worker.*\.wasm$/],
];
/** The catalog of a language other than English, fetched where it is spoken. */
const LANGUAGE = /^assets\/[a-z]{2}-.*\.json$/;
/** What is fetched once the page can be used: its part below, the worker, when the first one is hired,
 *  and what keeps the page on the device; or by nobody but a careful reader. */
const LATER = [/^assets\/split_/, /^assets\/worker/, /^service-worker\.js$/, /^manifest\./, /^(apple-touch-)?icon-?.*\.png$/,
  /\.txt$/, /^SHA256SUMS$/, LANGUAGE];

const folder = process.argv[2];
const names = (await readdir(folder, { recursive: true })).sort();
const size = async (name) => (await stat(join(folder, name))).size;
const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
const row = (...cells) => console.log(cells[0].padEnd(40), ...cells.slice(1).map((cell) => cell.padStart(12)));

const totals = { everything: 0, ...Object.fromEntries(Object.keys(LIMITS).map((what) => [what, 0])) };
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
