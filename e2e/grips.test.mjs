// The drawing as a place to change the design: by mouse, by keyboard, by touch.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const value = async (designer, label) => {
  await designer.openGroup('Smoke path');
  return Number(await designer.entry(label).inputValue());
};

test('a run is made shorter by dragging its end, and one undo brings it back', {}, async (designer) => {
  await designer.open();
  const before = await value(designer, 'Run length');
  const margin = await designer.text('margin');
  await designer.pull('Run length', -60, 0);
  const meanwhile = await value(designer, 'Run length');
  assert.ok(meanwhile < before, 'live');
  assert.notEqual(await designer.text('margin'), margin, 'figures follow');
  await designer.page.mouse.up();
  assert.equal(await value(designer, 'Run length'), meanwhile);
  assert.ok(Math.abs((meanwhile * 20) - Math.round(meanwhile * 20)) < 1e-9, 'whole steps');
  await designer.button('Undo').click();
  assert.equal(await value(designer, 'Run length'), before);
  assert.equal(await designer.button('Undo').isDisabled(), true);
});

test('the end of the run stays under the pointer', {}, async (designer) => {
  await designer.open();
  const left = async () => (await designer.grip('Run length').boundingBox()).x;
  const before = await left();
  await designer.pull('Run length', -80, 0);
  const way = (await left()) - before;
  // A step of 50 mm is some 7 px.
  assert.ok(Math.abs(way + 80) < 6, `${way} px`);
  await designer.page.mouse.up();
});

test('Escape gives a drag up', {}, async (designer) => {
  await designer.open();
  const before = await value(designer, 'Run height');
  await designer.pull('Run height', 0, 20);
  assert.notEqual(await value(designer, 'Run height'), before);
  await designer.page.keyboard.press('Escape');
  assert.equal(await value(designer, 'Run height'), before);
  await designer.page.mouse.up();
  assert.equal(await value(designer, 'Run height'), before);
  assert.equal(await designer.button('Undo').isDisabled(), true);
});

test('a grip goes as far as can be built and says why not further', {}, async (designer) => {
  await designer.open();
  const link = await designer.link();
  await designer.grip('Chimney mouth height').focus();
  await designer.page.keyboard.press('Home');
  assert.match(await designer.grip('Chimney mouth height').textContent(), /at (least|most)/);
  const now = Number(await designer.grip('Chimney mouth height').getAttribute('aria-valuenow'));
  assert.ok(now > 2.3 && now < 5, `${now} m`);
  assert.notEqual(await designer.link(), link);
});

test('grips work by keyboard, in reading order, and say their values', {}, async (designer) => {
  await designer.open();
  const grip = designer.grip('Run length');
  await grip.focus();
  assert.equal(await grip.getAttribute('aria-valuetext'), '2.00 m');
  await designer.page.keyboard.press('ArrowLeft');
  assert.equal(await grip.getAttribute('aria-valuetext'), '1.95 m');
  await designer.page.keyboard.press('Shift+ArrowLeft');
  assert.equal(await grip.getAttribute('aria-valuetext'), '1.45 m');
  await designer.page.keyboard.press('End');
  assert.equal(await grip.getAttribute('aria-valuenow'), '4.0000');
  for (const text of ['1.45 m', '1.95 m', '2.00 m']) {
    await designer.button('Undo').click();
    assert.equal(await grip.getAttribute('aria-valuetext'), text);
  }
  const names = await designer.page.locator('.section-frame .grip-place:not([hidden]) .grip')
    .evaluateAll((grips) => grips.map((each) => each.getAttribute('aria-label')));
  const read = ['Chimney mouth height', 'Clearance above', 'Runs', 'Run length', 'Run height',
    'Firebox height', 'Firebox width'];
  assert.deepEqual(names, read);
});

/** Of the firebrick of the example, 9 x 4 1/2 x 2 1/2 in, with its joint: half a length, and a course
 *  in a wall of 2 1/2 in, where bricks stand on edge (m). */
const JOINT = 0.0254 / 16;
const HALF = (9 * 0.0254 + JOINT) / 2;
const COURSE = 4.5 * 0.0254 + JOINT;

test('grips set sizes to whole bricks when that is wished', {}, async (designer) => {
  await designer.open();
  const { page } = designer;
  const read = async (label) => Number(await designer.grip(label).getAttribute('aria-valuenow'));
  /** How far a size is from whole bricks (m); sizes are laid out in tenths of a millimeter. */
  const off = (size, unit) => Math.abs(size - Math.round(size / unit) * unit);
  const wish = designer.button('Drag by whole bricks');
  assert.equal(await wish.getAttribute('aria-pressed'), 'false');
  await wish.click();
  assert.equal(await wish.getAttribute('aria-pressed'), 'true');
  const before = await read('Run length');
  await designer.pull('Run length', -70, 0);
  const length = await read('Run length');
  assert.ok(length < before && off(length - JOINT, HALF) < 0.0005, `${length} m`);
  await page.mouse.up();
  await designer.grip('Run height').press('ArrowUp');
  const first = await read('Run height');
  await designer.grip('Run height').press('ArrowUp');
  const second = await read('Run height');
  // The value is shown in millimeters.
  assert.ok(off(first / 1000, COURSE) < 0.0005, `${first} mm`);
  assert.ok(Math.abs((second - first) / 1000 - COURSE) < 0.0002, 'a step is a course');
  await designer.button('Undo').click();
  assert.equal(await read('Run height'), first, 'one step back');

  await wish.click();
  await designer.pull('Run length', -40, 0);
  const free = await read('Run length');
  assert.ok(Math.abs(free * 20 - Math.round(free * 20)) < 1e-9, 'the usual steps again');
  await page.mouse.up();
});

test('runs are added on the drawing', {}, async (designer) => {
  await designer.open();
  const more = designer.page.locator('.section-frame').getByRole('button', { name: 'Runs, one more' });
  await more.click();
  assert.equal(await value(designer, 'Runs'), 6);
  await more.click();
  await designer.button('Undo').click();
  assert.equal(await value(designer, 'Runs'), 6);
});

for (const width of [360, 390]) {
  test(`a finger drags a grip at ${width} px`, {
    context: { viewport: { width, height: 844 }, hasTouch: true, isMobile: true },
  }, async (designer) => {
    await designer.open();
    const grip = designer.grip('Run length');
    await grip.scrollIntoViewIfNeeded();
    const box = await grip.boundingBox();
    assert.ok(box.width >= 44 && box.height >= 44, `${box.width} x ${box.height} px`);
    const session = await designer.page.context().newCDPSession(designer.page);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const touch = (type, right) => session.send('Input.dispatchTouchEvent', {
      type, touchPoints: right === undefined ? [] : [{ x: x + right, y }],
    });
    const before = Number(await grip.getAttribute('aria-valuenow'));
    await touch('touchStart', 0);
    for (const right of [-5, -15, -25, -35]) await touch('touchMove', right);
    await touch('touchEnd');
    await designer.page.waitForFunction(
      (last) => document.querySelector('.grip[aria-label="Run length"]').ariaValueNow !== last, String(before.toFixed(4)),
    );
    const after = Number(await grip.getAttribute('aria-valuenow'));
    assert.ok(after < before - 0.1, `${before} to ${after} m`);
    await designer.button('Undo').click();
    assert.equal(Number(await grip.getAttribute('aria-valuenow')), before);
    const texts = await designer.page.evaluate(() => {
      const svg = document.querySelector('[data-testid=section]');
      return svg.querySelector('text').getBoundingClientRect().height && Number(svg.getAttribute('font-size')) * svg.getScreenCTM().a;
    });
    assert.ok(texts >= 11, `texts of ${texts} px`);
  });
}
