import assert from 'node:assert/strict';
import { setTimeout } from 'node:timers/promises';
import { test } from './harness.mjs';

const waitUntil = async (happened) => {
  while (!happened()) await setTimeout(20);
};

for (const prefix of ['/', '/x/y/']) {
  test(`the page opens under ${prefix}`, { prefix }, async (designer) => {
    await designer.open();
    await designer.page.getByRole('heading', { level: 1, name: 'Longsmoke' }).waitFor();
  });

  test(`a worker answers under ${prefix}`, { prefix }, async (designer) => {
    await designer.open();
    assert.equal(await designer.askWorker('ping 7'), '7 pong');
  });
}

test("the page can be used before the worker's program is there", {}, async (designer) => {
  const waiting = [];
  await designer.page.context().route('**/assets/worker_bg-*.wasm', (route) => {
    waiting.push(route);
  });
  await designer.open();
  const before = await designer.number('chimney-inlet');
  await designer.drag('Runs', 3);
  assert.ok(await designer.number('chimney-inlet') > before);
  await waitUntil(() => waiting.length > 0);
  await designer.page.context().unroute('**/assets/worker_bg-*.wasm');
  // A worker that was hired meanwhile may have been let go already.
  await Promise.allSettled(waiting.map((route) => route.continue()));
  await designer.stripDone();
});

test('the policy binds the worker', {
  onlyInChromium: 'Firefox does not let the driver look into a worker',
  expected: [/policy: connect-src .* in the worker/],
}, async (designer) => {
  await designer.open();
  await designer.askWorker('ping 1');
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
  await designer.page.locator('noscript p:not([lang])').waitFor();
  await designer.page.locator('noscript p[lang="de"]').waitFor();
});
