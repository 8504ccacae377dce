// Tells the service worker what a release consists of: writes service-worker.js into its folder,
// with every file that the page may ask for and its hash.
//
//   node tools/precache.mjs dist
import { createHash } from 'node:crypto';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join, sep } from 'node:path';
import { pathToFileURL } from 'node:url';

const SCRIPT = 'service-worker.js';
/** What the page never asks for. */
const OTHERS = /^(service-worker\.js|SHA256SUMS|.*\.(br|txt))$/;

const hash = (body) => `sha256-${createHash('sha256').update(body).digest('base64')}`;

/** Paths of a release with their hashes; that of the page itself is the folder. */
async function files(folder) {
  const names = (await readdir(folder, { recursive: true })).sort();
  const found = {};
  for (const name of names) {
    if (OTHERS.test(name) || !(await stat(join(folder, name))).isFile()) continue;
    const path = name === 'index.html' ? './' : name.split(sep).join('/');
    found[path] = hash(await readFile(join(folder, name)));
  }
  return found;
}

export async function precache(folder) {
  const list = JSON.stringify(await files(folder), null, 2);
  const source = await readFile(new URL(`../web/${SCRIPT}`, import.meta.url), 'utf8');
  // The name of a release says what is in it: the same files are the same release.
  const release = createHash('sha256').update(list + source).digest('hex').slice(0, 12);
  const script = source.replace("{ __FILES__: '' }", () => list).replace('__RELEASE__', release);
  await writeFile(join(folder, SCRIPT), script);
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await precache(process.argv[2]);
