// Entries that are refused, and what is said of them.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

test('of a refused entry nothing stays in the design', {}, async (designer) => {
  await designer.open();
  const entry = designer.entry('Run length');
  const before = { link: await designer.link(), margin: await designer.text('margin') };
  await entry.press('ControlOrMeta+a');
  // The first digit alone would be allowed.
  await entry.pressSequentially('40');
  await entry.press('Tab');
  assert.equal(await entry.inputValue(), '40');
  assert.match(await designer.problemOf('Run length').textContent(), /4\.00 m/);
  assert.equal(await designer.link(), before.link);
  assert.equal(await designer.text('margin'), before.margin);
  assert.equal(await designer.button('Undo').isDisabled(), true);

  await designer.openGroup('Firebox and door');
  const door = designer.entry('Door width');
  await door.fill('300');
  await door.press('Enter');
  const changed = await designer.link();
  await door.press('ControlOrMeta+a');
  await door.pressSequentially('3000');
  await door.blur();
  assert.equal(await designer.link(), changed, 'what was entered before stays');
});

test('a refused entry is not forgotten when its group is folded', {}, async (designer) => {
  await designer.open();
  await designer.entry('Run length').fill('40');
  await designer.page.locator('#decisions').getByRole('button', { name: /^Smoke path/ }).click();
  await designer.page.getByRole('button', { name: /^Smoke path 1 refused$/ }).waitFor();
  await designer.page.getByRole('button', { name: '1 entry refused: go to' }).click();
  const entry = designer.entry('Run length');
  await entry.and(designer.page.locator(':focus')).waitFor();
  await entry.fill('1');
  assert.equal(await designer.figure('refused').isVisible(), false);
  assert.equal(await designer.page.getByText('1 refused').isVisible(), false);
});

test('a refusal names both fields that do not fit', {}, async (designer) => {
  await designer.open();
  await designer.openGroup('Firebox and door');
  await designer.entry('Firebox width').fill('110');
  assert.match(await designer.problemOf('Firebox width').textContent(), /Door width.*Firebox width/);
  await designer.openGroup('Chimney');
  await designer.entry('Chimney mouth height').fill('2');
  assert.match(await designer.problemOf('Chimney mouth height').textContent(), /Runs and Run height/);
});

test('the phone offers a keyboard with which one can type what is asked', {}, async (designer) => {
  await designer.open();
  const mode = (label) => designer.entry(label).getAttribute('inputmode');
  assert.equal(await mode('Run length'), 'decimal');
  await designer.button('US').click();
  assert.equal(await mode('Run length'), 'text');
  assert.equal(await mode('Run width'), 'text');
  assert.equal(await mode('Runs'), 'decimal');
  await designer.openGroup('House and site');
  assert.equal(await mode('Outdoor temperature'), 'text');
});

test('a slider reaches the value that it shows', {}, async (designer) => {
  await designer.open();
  await designer.entry('Run length').fill('3.3');
  await designer.entry('Run length').press('Enter');
  assert.equal(await designer.slider('Run length').inputValue(), '3.3');
  await designer.drag('Run length', 3.2);
  assert.equal(await designer.entry('Run length').inputValue(), '3.2');
});

test('Ctrl+Z in a field takes back its step, and while one types the typing', {}, async (designer) => {
  await designer.open();
  const entry = designer.entry('Run length');
  const length = await entry.inputValue();
  await entry.fill('1.05');
  await entry.press('Enter');
  await entry.press('ControlOrMeta+z');
  assert.equal(await entry.inputValue(), length);
  await entry.press('ControlOrMeta+y');
  assert.equal(await entry.inputValue(), '1.05');
  const link = await designer.link();
  await entry.press('End');
  await entry.pressSequentially('x');
  await entry.press('ControlOrMeta+z');
  assert.equal(await entry.inputValue(), '1.05');
  assert.equal(await designer.link(), link);
});

test('a number of runs that cannot be taken says why', {}, async (designer) => {
  await designer.open();
  await designer.openGroup('Chimney');
  await designer.entry('Chimney outdoors').fill('0');
  await designer.entry('Chimney outdoors').press('Enter');
  await designer.entry('Chimney mouth height').fill('3.4');
  await designer.entry('Chimney mouth height').press('Enter');
  await designer.stripDone();
  const link = await designer.link();
  await designer.figure('strip-10').click();
  assert.match(await designer.text('strip-refused'), /^10 runs: Chimney mouth height must reach/);
  assert.equal(await designer.link(), link);
  await designer.figure('strip-3').click();
  assert.equal(await designer.text('strip-refused'), '');
});
