// What a builder does with one design.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

test('the demonstration is there at the start, with answers and figures', {}, async (designer) => {
  await designer.open();
  assert.equal(await designer.page.getByLabel('Name of the design').inputValue(), 'North farmhouse');
  for (const question of ['draw', 'heat', 'safe']) {
    assert.match(await designer.text(`answer-${question}`), /\w/);
  }
  assert.match(await designer.text('margin'), /^-?\d+\.\d Pa$/);
  assert.match(await designer.text('chimney-inlet'), /^\d+ °C$/);
  assert.match(await designer.text('efficiency'), /^\d+\.\d %$/);
  await designer.page.getByText('not a permit').waitFor();
});

test('typing and sliding change figures, findings and drawing', {}, async (designer) => {
  await designer.open();
  const drawing = () => designer.page.getByTestId('section').innerHTML();
  const before = { margin: await designer.number('margin'), drawing: await drawing() };

  await designer.entry('Run length').fill('1.9');
  assert.notEqual(await designer.number('margin'), before.margin);
  assert.notEqual(await drawing(), before.drawing);

  await designer.entry('Run length').press('Escape');
  assert.equal(await designer.number('margin'), before.margin);

  await designer.openGroup('Wood and fire');
  assert.equal(await designer.finding('wood-wet').count(), 0);
  await designer.entry('Moisture (wet basis)').fill('35');
  await designer.finding('wood-wet').waitFor();

  await designer.openGroup('Smoke path');
  await designer.drag('Run length', 1.2, 1.0, 0.8);
  assert.equal(await designer.entry('Run length').inputValue(), '0.8');
});

test('invalid text keeps the last good design and says what is allowed', {}, async (designer) => {
  await designer.open();
  const margin = await designer.text('margin');
  const entry = designer.entry('Run length');
  const length = await entry.inputValue();
  for (const text of ['', 'long', '1e9', '99', '-1', '1/0']) {
    await entry.fill(text);
    await entry.blur();
    assert.equal(await designer.text('margin'), margin, text);
    assert.match(await designer.problemOf('Run length').textContent(), /0\.20 m to 4\.00 m/);
    assert.equal(await entry.getAttribute('aria-invalid'), 'true');
    assert.equal(await entry.inputValue(), text, 'the text stays');
  }
  await entry.press('Escape');
  assert.equal(await entry.inputValue(), length);
  assert.equal(await entry.getAttribute('aria-invalid'), null);
  assert.equal(await designer.problemOf('Run length').textContent(), '');
});

test('a heater that cannot stand is refused at the field', {}, async (designer) => {
  await designer.open();
  await designer.openGroup('Chimney');
  const margin = await designer.text('margin');
  await designer.entry('Chimney mouth height').fill('2');
  assert.match(await designer.problemOf('Chimney mouth height').textContent(), /at least/);
  assert.equal(await designer.text('margin'), margin);
});

test('undo and redo take one step per gesture', {}, async (designer) => {
  await designer.open();
  const entry = designer.entry('Run length');
  const length = await entry.inputValue();
  assert.equal(await designer.button('Undo').isDisabled(), true);
  await designer.drag('Run length', 1.5, 1.4, 1.3, 1.2);
  await entry.fill('1.05');
  await entry.press('Enter');
  await designer.button('Undo').click();
  assert.equal(await entry.inputValue(), '1.2');
  await designer.button('Undo').click();
  assert.equal(await entry.inputValue(), length);
  assert.equal(await designer.button('Undo').isDisabled(), true);
  await designer.button('Redo').click();
  assert.equal(await entry.inputValue(), '1.2');
});

test('the strip compares one to ten runs and takes the one that is chosen', {}, async (designer) => {
  await designer.open();
  await designer.stripDone();
  assert.match(await designer.text('strip-1'), /°C.*%.*Pa/);
  const runs = await designer.entry('Runs').inputValue();
  await designer.figure('strip-3').click();
  assert.equal(await designer.entry('Runs').inputValue(), '3');
  assert.equal(await designer.figure('strip-3').getAttribute('aria-pressed'), 'true');
  await designer.button('Undo').click();
  assert.equal(await designer.entry('Runs').inputValue(), runs);

  const before = await designer.text('strip-2');
  await designer.whileWorkersWait(async () => {
    await designer.drag('Run length', 1.0);
    await designer.page.locator('.columns[aria-busy="true"]').waitFor();
  });
  await designer.stripDone();
  assert.notEqual(await designer.text('strip-2'), before);
});

test('US units are shown, read and lose nothing', {}, async (designer) => {
  await designer.open();
  const link = await designer.link();
  await designer.button('US').click();
  assert.match(await designer.text('chimney-inlet'), /°F$/);
  assert.match(await designer.text('margin'), /in w\.c\.$/);
  assert.equal(await designer.link(), link);
  await designer.entry('Run length').fill(`4'6"`);
  await designer.button('Metric').click();
  assert.equal(await designer.entry('Run length').inputValue(), '1.3716');
});

test('a finding leads to the decision that mends it', {}, async (designer) => {
  await designer.open();
  await designer.openGroup('Wood and fire');
  await designer.entry('Moisture (wet basis)').fill('35');
  await designer.openGroup('Chimney');
  await designer.finding('wood-wet').getByRole('button', { name: /^Go to/ }).click();
  await designer.entry('Moisture (wet basis)').and(designer.page.locator(':focus')).waitFor();
});

test('figures follow a slider within a frame or two', {}, async (designer) => {
  await designer.open();
  await designer.stripDone();
  const times = await designer.page.evaluate(async () => {
    const slider = document.querySelector('[type=range][aria-label="Run length"]');
    const painted = () => new Promise((done) => {
      requestAnimationFrame(() => setTimeout(done));
    });
    const taken = [];
    for (let step = 0; step < 60; step += 1) {
      await painted();
      const start = performance.now();
      slider.value = 1 + 0.05 * (step % 16);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      await painted();
      taken.push(performance.now() - start);
    }
    return taken.sort((a, b) => a - b);
  });
  // The limit is for a busy machine; what is aimed at stands in the requirements.
  assert.ok(times[57] < 250, `p95 ${times[57]} ms`);
});
