// The folder that `make dist` gives, without a browser.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';

const FOLDER = 'dist';
const read = (name) => readFile(join(FOLDER, name));
const all = await readdir(FOLDER, { recursive: true });
const isFile = await Promise.all(all.map(async (name) => (await stat(join(FOLDER, name))).isFile()));
const files = all.filter((_, index) => isFile[index]).sort();
const hash = (body, form) => createHash('sha256').update(body).digest(form);

test('every file stands with its hash', async () => {
  const lines = (await read('SHA256SUMS')).toString().trimEnd().split('\n');
  const listed = new Map(lines.map((line) => line.split('  ').reverse()));
  assert.deepEqual([...listed.keys()].sort(), files.filter((name) => name !== 'SHA256SUMS'));
  for (const [name, stated] of listed) assert.equal(hash(await read(name), 'hex'), stated, name);
});

test('what is kept on the device is all that the page may ask for, as it is', async () => {
  const script = (await read('service-worker.js')).toString();
  const list = JSON.parse(/const FILES = (\{[^}]*\});/.exec(script)[1]);
  const asked = files.filter((name) => !/\.(br|txt)$|^SHA256SUMS$|^service-worker\.js$/.test(name));
  assert.deepEqual(Object.keys(list).sort(), asked.map((name) => (name === 'index.html' ? './' : name)).sort());
  for (const [path, stated] of Object.entries(list)) {
    const body = await read(path === './' ? 'index.html' : path);
    assert.equal(`sha256-${hash(body, 'base64')}`, stated, path);
  }
  assert.doesNotMatch(script, /__[A-Z]+__/);
});

test('addresses are relative, so that any folder of a host will do', async () => {
  const page = (await read('index.html')).toString();
  const addresses = [...page.matchAll(/(?:href|src)="([^"]*)"/g)].map(([, address]) => address);
  assert.ok(addresses.length >= 5);
  for (const address of addresses) assert.match(address, /^\.\//);
  const manifest = JSON.parse(await read('manifest.webmanifest'));
  for (const address of [manifest.start_url, manifest.scope]) assert.equal(address, './');
  for (const { src } of manifest.icons) assert.ok(files.includes(src), src);
});

test('it says which version it is and whose work it contains', async () => {
  const [, version] = /^version = "(.+)"$/m.exec(await readFile('Cargo.toml', 'utf8'));
  assert.match((await read('VERSION.txt')).toString(), new RegExp(`^Longsmoke ${version}\nSource: .+\nCompiler: rustc `));
  const notice = (await read('THIRD-PARTY.txt')).toString();
  for (const part of ['serde_json', 'miniz_oxide', 'wasm-bindgen', 'plotters', 'libm', 'The Rust standard library']) {
    assert.ok(notice.includes(`\n${part}`), part);
  }
});

test('nothing tells where it was built', async () => {
  for (const name of files) {
    const body = await read(name);
    for (const place of [process.cwd(), process.env.HOME]) {
      assert.equal(body.includes(`${place}/`), false, `${name}: ${place}`);
    }
  }
});
