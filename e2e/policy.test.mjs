// The content security policy is never violated, be it sent as a header or carried by the page
// alone, as from a static host. The harness fails every test on a violation, and the tours of
// access.test.mjs see every view; here is the rest.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';
import { shortTour } from './tour.mjs';

test('nothing violates the policy that the page alone carries', {
  header: false, timeout: 120_000, context: { serviceWorkers: 'allow' },
}, async (designer) => {
  const response = await fetch(designer.url);
  assert.equal(response.headers.has('content-security-policy'), false);
  for await (const { view } of shortTour(designer)) assert.ok(view);
});

test('no other page shows this one in a frame', {
  expected: [/frame-ancestors|failed: /],
}, async (designer) => {
  await designer.page.setContent(`<iframe src="${designer.url}"></iframe>`);
  await designer.page.waitForTimeout(500);
  const inside = designer.page.frameLocator('iframe').getByRole('heading', { name: 'Longsmoke' });
  assert.equal(await inside.count(), 0);
});

test('a violation does not go unseen', {
  expected: [/policy: img-src/, /other\.test/],
}, async (designer) => {
  await designer.open();
  await designer.page.evaluate(() => new Promise((told) => {
    addEventListener('securitypolicyviolation', told, { once: true });
    new Image().src = 'http://other.test/picture.png';
  }));
  await designer.page.waitForTimeout(200);
});

test('no text becomes a program or a document but by the policy of the page', {
  onlyInChromium: 'Firefox does not know Trusted Types yet',
  expected: [/policy: require-trusted-types-for/, /policy: trusted-types/, /TrustedHTML|TrustedScriptURL|trusted-types/],
}, async (designer) => {
  await designer.open();
  const refused = await designer.page.evaluate(() => [
    () => { document.createElement('p').innerHTML = '<b>text</b>'; },
    () => new Worker('/assets/other.js'),
    () => globalThis.trustedTypes.createPolicy('another', {}),
  ].map((attempt) => {
    try { attempt(); } catch (error) { return error.name; }
    return 'let pass';
  }));
  assert.deepEqual(refused, ['TypeError', 'TypeError', 'TypeError']);
});
