// The release that stays on the device, and the one that comes after it.
import assert from 'node:assert/strict';
import { cp, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';
import { precache } from '../tools/precache.mjs';
import { isFirefox, test } from './harness.mjs';

const LETS = { serviceWorkers: 'allow' };

const folders = [];
after(() => Promise.all(folders.map((folder) => rm(folder, { recursive: true }))));

/** A folder with the release, to be replaced by another. */
async function copyOfRelease() {
  const folder = await mkdtemp(join(tmpdir(), 'release-'));
  folders.push(folder);
  await cp('dist', folder, { recursive: true });
  return folder;
}

/** Puts another release into a folder: other texts, and a worker under another name. */
async function replaceRelease(folder) {
  const assets = join(folder, 'assets');
  const names = await readdir(assets);
  const program = names.find((name) => /^worker_bg-.*\.wasm$/.test(name));
  const next = program.replace(/-.*\./, '-another.');
  await rename(join(assets, program), join(assets, next));
  for (const name of names.filter((name) => name.endsWith('.js'))) {
    const text = await readFile(join(assets, name), 'utf8');
    await writeFile(join(assets, name), text.replaceAll(program, next));
  }
  const page = join(folder, 'index.html');
  const text = await readFile(page, 'utf8');
  await writeFile(page, text.replace('content="Design the', 'content="Another release. Design the'));
  await precache(folder);
}

// Before any test is declared: the runner takes a file for done that waits between two of them.
const replaced = await copyOfRelease();
const changed = await copyOfRelease();
const returned = await copyOfRelease();

const isAnother = (page) => page.evaluate(
  () => document.querySelector('meta[name=description]').content.startsWith('Another'),
);
const caches = (page) => page.evaluate(async () => (await globalThis.caches.keys()).length);
const ready = (page) => page.getByText('Ready for use without a network').waitFor();
// It fetches all of a release first, which takes its time on a busy machine.
const newer = (page) => page.getByText('An update is ready').waitFor({ timeout: 30_000 });

/** Looks for another release, and says how its installation ended. */
const update = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  const ended = new Promise((done) => {
    registration.addEventListener('updatefound', () => {
      const { installing } = registration;
      installing.addEventListener('statechange', () => done(installing.state));
    });
  });
  await registration.update();
  return ended;
});

for (const prefix of ['/', '/x/y/']) {
  test(`after one visit the page opens and computes without a network, under ${prefix}`, {
    prefix, context: LETS,
  }, async (designer, server) => {
    await designer.open();
    await ready(designer.page);
    const margin = await designer.number('margin');
    await server.close();

    await designer.page.goto('about:blank');
    await designer.open();
    await designer.stripDone();
    assert.equal(await designer.number('margin'), margin);
    await designer.drag('Run length', 1.2);
    assert.notEqual(await designer.number('margin'), margin);
    assert.equal(await designer.askWorker('ping 7'), '7 pong');
    const { hash } = new URL(await designer.link());
    await designer.page.goto('about:blank');
    await designer.open(hash);
    assert.equal(await designer.entry('Run length').inputValue(), '1.2');
  });
}

test('a newer release waits until it is asked for, and old tabs go on', {
  folder: replaced, context: LETS,
}, async (designer) => {
  const { page } = designer;
  await designer.open();
  await ready(page);
  await page.reload();
  const other = await page.context().newPage();
  await other.goto(designer.url);
  await other.locator('#shell').waitFor({ state: 'detached' });
  await replaceRelease(replaced);

  // Twice, for a reload is no consent.
  for (const visit of ['first', 'second']) {
    await page.reload();
    await newer(page);
    assert.equal(await isAnother(page), false, `${visit} reload`);
    assert.equal(await designer.askWorker('ping 1'), '1 pong', 'of the release that runs');
  }
  await designer.entry('Run length').fill('1.05');
  await designer.entry('Run length').press('Enter');
  await designer.button('Start it now').click();
  await page.waitForFunction(
    () => document.querySelector('meta[name=description]').content.startsWith('Another'),
  );
  await page.locator('#shell').waitFor({ state: 'detached' });
  assert.equal(await designer.entry('Run length').inputValue(), '1.05', 'the design stays');
  assert.equal(await designer.askWorker('ping 2'), '2 pong', 'of the newer release');

  await other.getByText('started in another tab').waitFor();
  assert.equal(await isAnother(other), false);
  assert.equal(await other.evaluate(() => new Promise((done) => {
    const worker = globalThis.longsmokeWorker();
    worker.onmessage = ({ data }) => done(data);
    worker.postMessage('ping 3');
  })), '3 pong', 'an old tab still finds its parts');
  assert.equal(await caches(page), 2);
  await other.getByRole('button', { name: 'Reload', exact: true }).click();
  await other.waitForFunction(async () => (await globalThis.caches.keys()).length === 1);
  assert.equal(await isAnother(other), true);
});

test('a release that arrives changed is not installed', {
  folder: changed, context: LETS,
}, async (designer, server) => {
  const { page } = designer;
  await designer.open();
  await ready(page);
  await replaceRelease(changed);
  // On the way, after the list was made.
  const sheet = join(changed, 'assets', (await readdir(join(changed, 'assets')))
    .find((name) => name.endsWith('.css')));
  await writeFile(sheet, 'body { background: url(/elsewhere) }');
  assert.equal(await update(page), 'redundant');
  // A browser looks for a release by itself as well, a moment after a visit, and that attempt opens
  // a cache of its own until it fails too.
  await page.waitForFunction(async () => (await globalThis.caches.keys()).length === 1);
  await server.close();
  await page.goto('about:blank');
  await designer.open();
  assert.equal(await page.getByText('An update is ready').isVisible(), false);
  assert.equal(await isAnother(page), false);
});

test('a release that runs outlives a failed way back to it', {
  folder: returned, context: LETS,
}, async (designer, server) => {
  const { page } = designer;
  await designer.open();
  await ready(page);
  await replaceRelease(returned);
  await page.reload();
  await newer(page);
  // Back to the release that runs, whose program has not arrived on the host yet.
  await rm(returned, { recursive: true });
  await cp('dist', returned, { recursive: true });
  const program = (await readdir(join(returned, 'assets'))).find((name) => /^page_bg-.*\.wasm$/.test(name));
  await rm(join(returned, 'assets', program));
  assert.equal(await update(page), 'redundant');
  await server.close();
  await page.goto('about:blank');
  await designer.open();
  assert.equal(await designer.askWorker('ping 4'), '4 pong');
});

test('the page can be installed', {
  prefix: '/x/y/',
  context: LETS,
  onlyInChromium: 'asks the browser by its own protocol',
}, async (designer) => {
  await designer.open();
  const session = await designer.page.context().newCDPSession(designer.page);
  const { errors, manifest, url } = await session.send('Page.getAppManifest');
  assert.deepEqual(errors, []);
  assert.equal(url, `${designer.url}manifest.webmanifest`);
  assert.equal(manifest.scope, designer.url);
  assert.equal(manifest.startUrl, designer.url);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  // Test windows have no profile of their own to install into.
  assert.deepEqual(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito'), []);
});

test('what is said lies above the caution and can be put away', {
  context: { ...LETS, viewport: { width: 360, height: 800 } },
}, async (designer) => {
  await designer.open();
  await ready(designer.page);
  const box = (selector) => designer.page.locator(selector).boundingBox();
  const [said, caution] = [await box('#device-ready'), await box('.caution')];
  assert.ok(said.y + said.height <= caution.y, `${said.y + said.height} px, ${caution.y} px`);
  assert.ok(said.x >= 0 && said.x + said.width <= 360);
  if (!isFirefox) await designer.page.screenshot({ path: 'build/screenshots/360-device.png' });
  await designer.page.locator('#device-ready').getByRole('button', { name: 'Close' }).click();
  assert.equal(await designer.page.locator('#device-ready').isVisible(), false);
});

test('a first visit is shown round before it is told of this', {
  firstVisit: true, context: { ...LETS, viewport: { width: 390, height: 844 } },
}, async (designer) => {
  await designer.open();
  const said = designer.page.locator('#device-ready');
  await designer.page.locator('#walk').waitFor({ timeout: 30_000 });
  await designer.page.waitForFunction(() => !document.getElementById('device-ready').hidden);
  assert.equal(await said.isVisible(), false, 'the walk stands there');
  await designer.page.locator('#walk').getByRole('button', { name: 'Close' }).click();
  await said.waitFor();
});
