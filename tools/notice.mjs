// Writes into a release who made what it contains and under which terms, and which version it is:
// THIRD-PARTY.txt and VERSION.txt.
//
//   node tools/notice.mjs dist
import { execFileSync } from 'node:child_process';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';

const MIT = `Permission is hereby granted, free of charge, to any person obtaining a copy of this software and
associated documentation files (the "Software"), to deal in the Software without restriction,
including without limitation the rights to use, copy, modify, merge, publish, distribute,
sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or
substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT
NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND
NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM,
DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT
OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.`;
const LICENSE_FILE = /^(licen[cs]e|copying|copyright|notice|unlicense)/i;

const say = (program, ...args) => execFileSync(program, args, { maxBuffer: 1e9 }).toString().trim();

/** The crates whose code is in the programs: no macros, no build scripts, no tests. */
function shipped() {
  const metadata = JSON.parse(say('cargo', 'metadata', '--locked', '--format-version', '1',
    '--features', 'ui', '--filter-platform', 'wasm32-unknown-unknown'));
  const packages = new Map(metadata.packages.map((each) => [each.id, each]));
  const nodes = new Map(metadata.resolve.nodes.map((each) => [each.id, each]));
  const isMacro = ({ targets }) => targets.some(({ kind }) => kind.includes('proc-macro'));
  const found = new Set();
  const visit = (id) => {
    if (found.has(id) || isMacro(packages.get(id))) return;
    found.add(id);
    for (const { pkg, dep_kinds: kinds } of nodes.get(id).deps) {
      if (kinds.some(({ kind }) => kind === null)) visit(pkg);
    }
  };
  visit(metadata.resolve.root);
  const root = packages.get(metadata.resolve.root);
  const crates = [...found].map((id) => packages.get(id)).filter((each) => each !== root);
  // In an order that depends on no system.
  const key = ({ name, version }) => `${name} ${version}`;
  return { root, crates: crates.sort((a, b) => (key(a) < key(b) ? -1 : 1)) };
}

/** The terms that come with a crate; where it lets choose, those of MIT alone. */
async function terms({ manifest_path: manifest, license, authors }) {
  const folder = dirname(manifest);
  let names = (await readdir(folder, { withFileTypes: true }))
    .filter((entry) => entry.isFile() && LICENSE_FILE.test(entry.name))
    .map((entry) => entry.name)
    .sort();
  const mit = names.filter((name) => /mit/i.test(name));
  if (/\bMIT\b/.test(license) && !license.includes('AND') && mit.length > 0) names = mit;
  const texts = await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8')));
  const text = texts.map((each) => each.replaceAll('\r\n', '\n').trim()).join('\n\n');
  if (text) return text;
  if (!/\bMIT\b/.test(license)) throw new Error(`${manifest}: no text of ${license}`);
  return `The MIT license\n\nCopyright (c) ${authors.join(', ') || 'its authors'}\n\n${MIT}`;
}

const folder = process.argv[2];
const { root, crates } = shipped();
const groups = new Map();
const add = (name, license, text) => {
  const names = groups.get(text) ?? [];
  groups.set(text, [...names, `${name} (${license})`]);
};
for (const crate of crates) {
  add(`${crate.name} ${crate.version}`, crate.license, await terms(crate));
}
// Linked into every program.
add('The Rust standard library', 'MIT OR Apache-2.0',
  `The MIT license\n\nCopyright (c) The Rust Project Contributors\n\n${MIT}`);
const rule = '-'.repeat(80);
const parts = [...groups].map(([text, names]) => `${rule}\n${names.join('\n')}\n\n${text}\n`);
await writeFile(join(folder, 'THIRD-PARTY.txt'), `Longsmoke ${root.version} is under the license ${root.license}. Its programs contain the work of others,
each under the terms below. Where several may be chosen, these are the ones that were.

${parts.join('\n')}`);

let source = 'unknown';
try {
  const changed = say('git', 'status', '--porcelain', '--untracked-files=no') !== '';
  source = say('git', 'rev-parse', 'HEAD') + (changed ? ', changed' : '');
} catch {
  // Built from an archive.
}
await writeFile(join(folder, 'VERSION.txt'), `Longsmoke ${root.version}
Source: ${source}
Compiler: ${say('rustc', '--version')}
`);
