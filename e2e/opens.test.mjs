import assert from 'node:assert/strict';
import { test } from './harness.mjs';

for (const prefix of ['/', '/x/y/']) {
  test(`the page opens under ${prefix}`, { prefix }, async (designer) => {
    await designer.open();
    await designer.page.getByRole('heading', { level: 1, name: 'Longsmoke' }).waitFor();
  });

  test(`a worker answers under ${prefix}`, { prefix }, async (designer) => {
    const programs = new Set();
    designer.page.context().on('request', (request) => {
      if (request.url().endsWith('.wasm')) programs.add(request.url());
    });
    await designer.open();
    const answer = await designer.askWorker({ generation: 7, job: 'ping' });
    assert.deepEqual(answer, { generation: 7, result: 'pong' });
    assert.equal(programs.size, 1, 'page and worker run the same wasm');
  });
}

test('the policy binds the worker', {
  expected: [/policy: connect-src .* in the worker/],
}, async (designer) => {
  await designer.open();
  await designer.askWorker({ generation: 1, job: 'ping' });
  const [worker] = designer.page.workers();
  // Until the violation has been told, and a moment for its message to cross to the test.
  const reached = await worker.evaluate(async () => {
    const told = new Promise((done) => {
      addEventListener('securitypolicyviolation', done, { once: true });
    });
    const answer = await fetch('http://other.test/').then(() => true, () => false);
    await told;
    return answer;
  });
  await designer.page.waitForTimeout(200);
  assert.equal(reached, false);
});

test('the shell says what it is before the program runs', {
  context: { javaScriptEnabled: false },
}, async (designer) => {
  await designer.visit();
  await designer.page.getByText('designs the smoke path').waitFor();
  await designer.page.getByText('not a permit').waitFor();
  // By element: Playwright looks for no text in here.
  await designer.page.locator('noscript p').waitFor();
});
