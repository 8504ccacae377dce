// Writes a brotli twin beside every file of a folder that gains from one: for hosts that serve
// prepared files, for tools/serve.mjs and for tools/size.mjs.
//
//   node tools/compress.mjs dist
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants } from 'node:zlib';

const GAINS = new Set(['.css', '.html', '.js', '.json', '.svg', '.txt', '.wasm', '.webmanifest']);

const folder = process.argv[2];
for (const entry of await readdir(folder, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile() || !GAINS.has(extname(entry.name))) continue;
  const file = join(entry.parentPath ?? entry.path, entry.name);
  const body = await readFile(file);
  const params = {
    [constants.BROTLI_PARAM_QUALITY]: 11,
    [constants.BROTLI_PARAM_SIZE_HINT]: body.length,
  };
  await writeFile(`${file}.br`, await promisify(brotliCompress)(body, { params }));
}
