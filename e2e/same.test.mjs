// The same designs give the same figures natively, as wasm and in the page's worker.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { before, test as nodeTest } from 'node:test';
import { test } from './harness.mjs';

/** Largest relative difference that is allowed. */
const ALLOWED = 1e-9;
const NUMBER = /-?\d+(?:\.\d+)?(?:e-?\d+)?/g;

const lines = (...command) => {
  const [program, ...args] = command;
  const output = execFileSync(program, args, { encoding: 'utf8', maxBuffer: 2 ** 30 });
  return output.trimEnd().split('\n');
};

/** How far apart the numbers of two lines are, whose other text must be the same. */
function difference(one, other) {
  assert.equal(one.replace(NUMBER, '#'), other.replace(NUMBER, '#'));
  const [ours, theirs] = [one, other].map((line) => (line.match(NUMBER) ?? []).map(Number));
  let most = 0;
  ours.forEach((a, at) => {
    const b = theirs[at];
    const apart = a === b ? 0 : Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));
    // NaN counts as the most.
    if (!(apart <= most)) most = apart;
  });
  return { most, count: ours.length };
}

/** How a worker tells of the day that repeats. */
const REPEATING = 'found part repeating ';

let native;
before(() => {
  native = lines('cargo', 'run', '--quiet', '--locked', '--profile', 'serve', '--bin', 'figures');
});

nodeTest('200 designs have the same figures natively and as wasm', (t) => {
  const wasm = lines(process.execPath, 'build/wasm/figures/figures.js');
  assert.equal(wasm.length, native.length);
  const is = (line, what) => line.startsWith(what);
  const tally = { designs: 0, analyzed: 0, days: 0, figures: 0, different: 0, most: 0 };
  native.forEach((line, at) => {
    if (is(line, '{')) tally.designs += 1;
    if (is(line, 'Ok(')) tally.analyzed += 1;
    if (is(line, REPEATING)) tally.days += 1;
    const { most, count } = difference(line, wasm[at]);
    tally.figures += count;
    if (line !== wasm[at]) tally.different += 1;
    if (!(most <= tally.most)) tally.most = most;
  });
  t.diagnostic(JSON.stringify(tally));
  assert.ok(tally.designs >= 200 && tally.analyzed >= 180 && tally.days >= 20);
  assert.ok(tally.most <= ALLOWED, `${tally.most}`);
});

test('the worker of the page has the same day', {}, async (designer) => {
  const begin = native.findIndex((line) => line.startsWith(REPEATING));
  const design = native.slice(0, begin).findLast((line) => line.startsWith('{'));
  await designer.open();
  const day = await designer.page.evaluate(([order, repeating]) => new Promise((done) => {
    const worker = globalThis.longsmokeWorker();
    worker.onmessage = ({ data }) => {
      if (data.startsWith(`1 ${repeating}`)) done(data.slice(2));
    };
    worker.postMessage(order);
  }), [`day 1 ${design}`, REPEATING]);
  assert.ok(difference(day, native[begin]).most <= ALLOWED);
});
