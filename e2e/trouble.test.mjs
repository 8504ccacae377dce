import assert from 'node:assert/strict';
import { isFirefox, test } from './harness.mjs';

test('a panic shows the present link and reloads', {
  expected: [/panicked at .*longsmoke-test-panic/s, /unreachable/],
}, async (designer) => {
  await designer.open();
  // Or the worker's comes later and takes its place.
  await designer.link();
  const link = `${designer.url}#present-design`;
  await designer.page.evaluate((text) => { globalThis.longsmokeLink = text; }, link);
  await designer.panic();

  await designer.broken.waitFor();
  assert.equal(await designer.brokenLink.getAttribute('href'), link);
  assert.match(await designer.broken.locator('pre').textContent(), /longsmoke-test-panic/);
  await designer.broken.getByRole('button', { name: 'Reload' }).click();
  await designer.broken.waitFor({ state: 'hidden' });
  await designer.page.getByRole('heading', { level: 1, name: 'Longsmoke' }).waitFor();
});

test('the link of a panic is the present one when it is pressed', {
  expected: [/longsmoke-test-panic/, /unreachable/],
}, async (designer) => {
  await designer.open();
  await designer.link();
  await designer.panic();
  await designer.broken.waitFor();
  // As a worker answers that was asked before.
  const late = `${designer.url}#late-design`;
  await designer.page.evaluate((text) => { globalThis.longsmokeLink = text; }, late);
  await designer.brokenLink.focus();
  assert.equal(await designer.brokenLink.getAttribute('href'), late);
  const later = `${designer.url}#later-design`;
  await designer.page.evaluate((text) => { globalThis.longsmokeLink = text; }, later);
  await designer.brokenLink.dispatchEvent('pointerdown');
  assert.equal(await designer.brokenLink.getAttribute('href'), later);
});

test('a panic without a link says where the design is', {
  expected: [/longsmoke-test-panic/, /unreachable/],
}, async (designer) => {
  await designer.open();
  await designer.link();
  await designer.page.evaluate(() => { delete globalThis.longsmokeLink; });
  await designer.panic();
  await designer.broken.getByText('Reload: your design is kept on this device.').waitFor();
  assert.equal(await designer.brokenLink.isVisible(), false);
});

test('a panic before there is a link shows the one that was opened', {
  expected: [/longsmoke-test-panic/, /unreachable/],
}, async (designer) => {
  await designer.open('#opened-design');
  await designer.link();
  await designer.page.evaluate(() => {
    delete globalThis.longsmokeLink;
    history.replaceState(null, '', location.pathname);
  });
  await designer.panic();
  await designer.broken.waitFor();
  assert.equal(await designer.brokenLink.getAttribute('href'), `${designer.url}#opened-design`);
});

test('a trap without a panic shows the same block', {
  expected: [/error: unreachable/],
}, async (designer) => {
  await designer.open();
  await designer.page.evaluate(() => {
    // (module (start 0) (func unreachable))
    const trap = '0061736d 01000000 01040160 0000 03020100 080100 0a050103 00000b';
    const bytes = Uint8Array.from(trap.replaceAll(' ', '').match(/../g), (hex) => parseInt(hex, 16));
    setTimeout(() => new WebAssembly.Instance(new WebAssembly.Module(bytes)));
  });
  await designer.broken.waitFor();
});

test('a program that does not arrive is said so', {
  // Firefox does not write it to the console as well.
  expected: [/failed: .*\.wasm/, ...(isFirefox ? [] : [/console: Failed to load/])],
}, async (designer) => {
  await designer.page.route('**/*.wasm', (route) => route.abort());
  await designer.visit();
  await designer.absent.waitFor();
});

test('what stands below the first screen is asked for again when it did not arrive', {
  expected: [/failed: .*split_below.*\.wasm/, /console: (Type)?Error/, ...(isFirefox ? [] : [/console: Failed to load/])],
}, async (designer) => {
  await designer.page.route('**/split_below*.wasm', (route) => route.abort(), { times: 1 });
  await designer.visit();
  const missing = designer.page.getByRole('alert').filter({ hasText: 'could not be fetched' });
  await missing.waitFor();
  // What one came for is there already.
  assert.match(await designer.text('chimney-inlet'), /^\d+\s°C/);
  assert.equal(await designer.page.locator('.pictures').count(), 0);

  await missing.getByRole('button', { name: 'Try again' }).click();
  await designer.page.locator('.pictures').waitFor();
  assert.equal(await missing.count(), 0);
  await designer.page.getByRole('heading', { name: 'Temperatures along the path' }).waitFor();
  // It follows what is decided, like the rest.
  await designer.stripDone();
  await designer.button('US').click();
  await designer.page.locator('.pictures').getByText(/°F/).first().waitFor();
});
