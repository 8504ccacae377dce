// Writes the hash of every file of a release into it: `sha256sum --check SHA256SUMS` there tells
// whether all arrived as it was built.
//
//   node tools/sums.mjs dist
import { createHash } from 'node:crypto';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join, sep } from 'node:path';

const SUMS = 'SHA256SUMS';

const folder = process.argv[2];
const lines = [];
for (const name of (await readdir(folder, { recursive: true })).sort()) {
  if (name === SUMS || !(await stat(join(folder, name))).isFile()) continue;
  const hash = createHash('sha256').update(await readFile(join(folder, name))).digest('hex');
  lines.push(`${hash}  ${name.split(sep).join('/')}\n`);
}
await writeFile(join(folder, SUMS), lines.join(''));
