// Keeps one release whole on the device and answers from it, so that the page opens without a
// network. It has no part in what the page does.
//
// - A release is installed whole, each file held against its hash, or not at all.
// - It takes over when the page asks for it, by a click, or when no tab is left on the one before.
// - What came before goes when no tab is left that may still ask for a part of it.

// tools/precache.mjs writes both: a name for what is in the files, and each file with its hash.
const RELEASE = '__RELEASE__';
const FILES = { __FILES__: '' };

// Other pages of the same host have caches too, and perhaps another copy of this one.
const OURS = `longsmoke ${registration.scope} `;
const CACHE = OURS + RELEASE;
/** Where the cache notes the tabs that were open when this release took over. */
const TABS = new URL('tabs-before', registration.scope).href;

async function install() {
  const requests = Object.entries(FILES).map(([path, integrity]) => (
    new Request(new URL(path, registration.scope), { integrity, cache: 'no-cache' })
  ));
  // A host may go back to a release that is here, and perhaps runs.
  const isHere = await caches.has(CACHE);
  const cache = await caches.open(CACHE);
  try {
    // All or nothing.
    await cache.addAll(requests);
  } catch (error) {
    if (!isHere) await caches.delete(CACHE);
    throw error;
  }
}

async function takeOver() {
  const tabs = await clients.matchAll({ type: 'window', includeUncontrolled: true });
  const cache = await caches.open(CACHE);
  await cache.put(TABS, new Response(JSON.stringify(tabs.map(({ id }) => id))));
  await clients.claim();
  await tidy();
}

async function tidy() {
  // The cache of a release that waits is not to be taken for an old one.
  if (registration.installing || registration.waiting) return;
  const noted = await caches.match(TABS, { cacheName: CACHE });
  const tabs = await Promise.all((await noted?.json() ?? []).map((id) => clients.get(id)));
  if (tabs.some(Boolean)) return;
  const old = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

async function answer(request) {
  const { origin, pathname } = new URL(request.url);
  const address = origin + pathname;
  const isPage = address === registration.scope || address === `${registration.scope}index.html`;
  const wanted = isPage ? registration.scope : address;
  return await caches.match(wanted, { cacheName: CACHE, ignoreVary: true })
    // A tab from before this release took over asks for a part of its own.
    ?? await caches.match(wanted, { ignoreVary: true })
    ?? fetch(request);
}

addEventListener('install', (event) => event.waitUntil(install()));
addEventListener('activate', (event) => event.waitUntil(takeOver()));
addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  if (method === 'GET' && url.startsWith(registration.scope)) {
    event.respondWith(answer(event.request));
  }
});
addEventListener('message', (event) => {
  if (event.data === 'take over') skipWaiting();
  if (event.data === 'loaded') event.waitUntil(tidy());
});
