// Serves the built page as a careful host would: strict policy, right types, compressed.
//
//   node tools/serve.mjs [--folder dist] [--port 8080] [--host 127.0.0.1] [--prefix /x/y/]
//
// Own code instead of a bundler's preview: it sends the policy as a header, which alone binds
// the worker and keeps the page out of frames, and it can put the page below any path.
import { readFile, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs, promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
};
/** Compressed by their own format. */
const DENSE = new Set(['.ico', '.png', '.woff2']);

/** The policy that index.html carries, so that header and meta element cannot differ, and behind it
 *  what a meta element cannot say: no page may frame this one. */
async function contentSecurityPolicy(folder) {
  const html = await readFile(resolve(folder, 'index.html'), 'utf8');
  const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)?.[1];
  if (!policy) throw new Error(`${folder}/index.html carries no Content-Security-Policy`);
  return `${policy}; frame-ancestors 'none'`;
}

/** Body in the best encoding that the client takes: prepared brotli, else made here, once. */
async function encode(file, modified, accepted, cache) {
  if (DENSE.has(extname(file))) return { body: await readFile(file) };
  const encoding = ['br', 'gzip'].find((name) => accepted.includes(name));
  const key = `${encoding} ${modified} ${file}`;
  if (!cache.has(key)) cache.set(key, compress(file, modified, encoding));
  return { encoding, body: await cache.get(key) };
}

async function compress(file, modified, encoding) {
  if (encoding === 'br') {
    const prepared = await stat(`${file}.br`).catch(() => null);
    if (prepared?.mtimeMs >= modified) return readFile(`${file}.br`);
  }
  const body = await readFile(file);
  if (encoding === 'br') {
    const params = { [constants.BROTLI_PARAM_QUALITY]: 5 };
    return promisify(brotliCompress)(body, { params });
  }
  return encoding === 'gzip' ? promisify(gzip)(body) : body;
}

/**
 * Starts the server; port 0 takes a free one. Without `header` it sends no policy, as a static host
 * may not. Gives its address and a way to end it.
 */
export async function serve({ folder, prefix = '/', port = 0, host = '127.0.0.1', header = true }) {
  const root = resolve(folder);
  const policy = await contentSecurityPolicy(root);
  const base = `/${prefix}/`.replace(/\/+/g, '/');
  const cache = new Map();

  async function answer(request, response) {
    const say = (status, headers = {}) =>
      response.writeHead(status, { 'content-type': TYPES['.txt'], ...headers }).end();
    if (!['GET', 'HEAD'].includes(request.method)) return say(405, { allow: 'GET, HEAD' });

    const path = decodeURIComponent(new URL(request.url, 'http://localhost').pathname);
    if (`${path}/` === base) return say(308, { location: base });
    if (!path.startsWith(base) || path.includes('\0')) return say(404);
    const file = resolve(root, `./${path.slice(base.length)}`, path.endsWith('/') ? 'index.html' : '');
    if (!file.startsWith(root + sep)) return say(404);
    const found = await stat(file).catch(() => null);
    if (!found?.isFile()) return say(404);

    const hashed = path.startsWith(`${base}assets/`);
    const headers = {
      ...(header && { 'content-security-policy': policy }),
      'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cache-control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
      etag: `"${found.size}-${found.mtimeMs}"`,
      vary: 'accept-encoding',
    };
    if (request.headers['if-none-match'] === headers.etag) {
      return response.writeHead(304, headers).end();
    }
    const accepted = request.headers['accept-encoding'] ?? '';
    const { body, encoding } = await encode(file, found.mtimeMs, accepted, cache);
    if (encoding) headers['content-encoding'] = encoding;
    headers['content-length'] = body.length;
    return response.writeHead(200, headers).end(request.method === 'HEAD' ? undefined : body);
  }

  const server = createServer((request, response) => {
    // A request that cannot be read, such as `/%`, is the client's mistake; the server goes on.
    answer(request, response).catch(() => response.writeHead(400).end());
  });
  await new Promise((done, fail) => server.once('error', fail).listen(port, host, done));
  return {
    url: `http://localhost:${server.address().port}${base}`,
    close: () => new Promise((done) => {
      server.close(done);
      server.closeAllConnections();
    }),
  };
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const { values } = parseArgs({
    options: {
      folder: { type: 'string', default: 'dist' },
      port: { type: 'string', default: '8080' },
      host: { type: 'string', default: '127.0.0.1' },
      prefix: { type: 'string', default: '/' },
    },
  });
  try {
    const { url } = await serve({ ...values, port: Number(values.port) });
    console.log(`Longsmoke is at ${url} (Ctrl-C ends it)`);
  } catch (error) {
    const taken = error.code === 'EADDRINUSE';
    const help = `port ${values.port} is taken; try: make serve PORT=${Number(values.port) + 1}`;
    console.error(taken ? help : error.message);
    process.exitCode = 1;
  }
}
