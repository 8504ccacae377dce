// The server of `make serve`, without a browser.
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { request } from 'node:http';
import { after, before, test } from 'node:test';
import { serve } from '../tools/serve.mjs';

let server;
before(async () => { server = await serve({ folder: 'dist', prefix: 'x/y' }); });
after(() => server.close());

/** Status and headers for a path that is sent as written: `fetch` would tidy it first. */
function ask(path, headers = {}) {
  return new Promise((done, fail) => {
    request(new URL(server.url).origin, { path, headers }, (response) => {
      response.resume();
      done({ status: response.statusCode, headers: response.headers });
    }).on('error', fail).end();
  });
}

test('header and page carry one policy', async () => {
  const { status, headers } = await ask('/x/y/');
  const policy = headers['content-security-policy'];
  assert.equal(status, 200);
  assert.match(policy, /^default-src 'none'; script-src 'self' 'wasm-unsafe-eval';/);
  // The header says one thing more, which a meta element cannot.
  const carried = policy.replace(/; frame-ancestors 'none'$/, '');
  assert.notEqual(carried, policy);
  assert.ok((await readFile('dist/index.html', 'utf8')).includes(`content="${carried}"`));
});

test('the program is sent compressed, typed and for ever', async () => {
  const name = (await readdir('dist/assets')).find((file) => file.endsWith('.wasm'));
  const { headers } = await ask(`/x/y/assets/${name}`, { 'accept-encoding': 'gzip, br' });
  assert.equal(headers['content-type'], 'application/wasm');
  assert.equal(headers['content-encoding'], 'br');
  assert.match(headers['cache-control'], /immutable/);
  const { headers: { etag } } = await ask('/x/y/');
  assert.equal((await ask('/x/y/', { 'if-none-match': etag })).status, 304);
});

test('nothing but the folder is served', async () => {
  for (const path of ['/', '/x/', '/x/y/../../package.json', '/x/y/%2e%2e/package.json',
    '/x/y/..%2fpackage.json', '/x/y//etc/passwd', '/x/y/assets', '/x/y/assets/%00']) {
    assert.equal((await ask(path)).status, 404, path);
  }
  assert.equal((await ask('/x/y/%')).status, 400);
  assert.equal((await ask('/x/y')).status, 308);
});
