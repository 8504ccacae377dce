// Takes exports that nobody calls out of a program, with what only they use: Leptos brings streams
// along for its servers, which the page has none of.
//
//   node tools/unexport.mjs FILE.wasm
import { execFileSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';

const UNUSED = /^(__wbg_)?intounderlying(byte)?(source|sink)_/;

const file = process.argv[2];
const module = new WebAssembly.Module(readFileSync(file));
const names = WebAssembly.Module.exports(module).map(({ name }) => name);
const kept = names.filter((name) => !UNUSED.test(name));
if (kept.length === names.length) throw new Error(`${file}: nothing to take out`);
const graph = [
  { name: 'the page', root: true, reaches: kept },
  ...names.map((name) => ({ name, export: name })),
];
writeFileSync(`${file}.json`, JSON.stringify(graph));
execFileSync('node_modules/.bin/wasm-metadce', [
  file, '--graph-file', `${file}.json`, '-g', '-o', file,
], { stdio: ['ignore', 'ignore', 'inherit'] });
rmSync(`${file}.json`);
