// The native command: its documents against its schema, its figures against those of the page.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test as nodeTest } from 'node:test';
import Ajv from 'ajv/dist/2020.js';
import { test } from './harness.mjs';
import { attempt, checked, native } from './native.mjs';

// The numbers of a schema carry formats such as "double", which say nothing to check.
const ajv = new Ajv({ allErrors: true, strict: false, validateFormats: false });
const check = (input, ...options) => attempt(['check', '-', ...options], input);
const designs = 'tests/reference/designs';

nodeTest('designs and results keep to the schema', () => {
  const { design, result } = JSON.parse(native(['schema']));
  const isDesign = ajv.compile(design);
  const isResult = ajv.compile(result);
  const files = readdirSync(designs).map((name) => readFileSync(`${designs}/${name}`, 'utf8'));
  for (const text of [native(['example']), ...files]) {
    assert.ok(isDesign(JSON.parse(text)), JSON.stringify(isDesign.errors));
    const { status, stdout } = check(text, '--json');
    assert.ok(status < 2);
    assert.ok(isResult(JSON.parse(stdout)), JSON.stringify(isResult.errors));
  }
  const wrong = { ...JSON.parse(native(['example'])), fire: { charge_kg: -1 } };
  assert.ok(!isDesign(wrong));
});

nodeTest('a file opens with a byte order mark, and none is read without end', () => {
  const example = native(['example']);
  assert.equal(native(['build', '-'], `\uFEFF${example}`), native(['build', '-'], example));
  for (const args of [['build', '/dev/zero'], ['check', '/dev/zero'], ['courses', '/dev/zero']]) {
    const { status, stderr } = attempt(args);
    assert.equal(status, 2);
    assert.match(stderr, /holds too much to be one of ours/);
  }
  // Letters of two bytes, of which the last one that is read is cut in two.
  const { stderr } = check(` ${'é'.repeat(140_000)}`);
  assert.match(stderr, /holds too much to be one of ours/);
});

nodeTest('a sweep takes numbers, and says which counts cannot be', () => {
  const example = native(['example']);
  const sweep = (...args) => attempt(['sweep', '-', '--csv', ...args], example);
  for (const [option, value] of [['--from', 'nan'], ['--to', 'inf'], ['--from', '-inf']]) {
    const { status, stdout, stderr } = sweep('--input', 'path.run_length_m', `${option}=${value}`);
    assert.deepEqual([status, stdout], [2, '']);
    assert.match(stderr, /path\.run_length_m: --from and --to take a number/);
  }
  const { status, stdout, stderr } = sweep('--input', 'path.run_count', '--from=-5', '--to=30', '--steps=2');
  assert.equal(status, 0);
  assert.match(stderr, /path\.run_count: -5 cannot be, 0 is taken\n.*: 30 cannot be, 12 is taken/);
  const counts = stdout.trim().split('\n').slice(1).map((line) => line.split(',')[0]);
  assert.deepEqual(counts, ['0', '12']);
});

nodeTest('the command tells fine, forbidden and unreadable apart', () => {
  const example = JSON.parse(native(['example']));
  assert.equal(check(JSON.stringify(example)).status, 0);
  example.chimney.rated_celsius = 80;
  assert.equal(check(JSON.stringify(example)).status, 1);
  const { status, stderr } = check('{\n"heater_design_version": 1,\n"fire": {"charge_kg": "x"}}');
  assert.equal(status, 2);
  assert.match(stderr, /line 3: fire\.charge_kg: a number expected/);
});

nodeTest('the command refuses what it would pass over', () => {
  const refused = [['check', '-', '--csv'], ['compare', '-', '--svg'], ['sources', 'more'], ['schema', 'design', 'more']];
  for (const words of refused) {
    const { status, stdout, stderr } = attempt(words, '{}');
    assert.deepEqual([status, stdout], [2, ''], words.join(' '));
    assert.match(stderr, /is no option of|say what to do/);
  }
});

test('the page shows the figures of the native command', {}, async (designer) => {
  const { height_of_fire: fire } = checked();
  await designer.open();
  const shown = {
    margin: fire.margin_pascals.toFixed(1),
    'chimney-inlet': fire.chimney_inlet_celsius.toFixed(0),
    efficiency: (fire.efficiency_lower * 100).toFixed(1),
    'mouth-wall': fire.chimney_mouth_wall_celsius.toFixed(0),
    'dew-point': fire.dew_point_celsius.toFixed(0),
  };
  for (const [name, figure] of Object.entries(shown)) {
    assert.equal(await designer.number(name), Number(figure), name);
  }
});
