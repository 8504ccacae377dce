// One part at a time: a press on the drawing shows what is decided of it, with plus and minus.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const card = (designer) => designer.page.getByTestId('part-card');
const title = (designer) => card(designer).getByRole('heading').textContent();
/** Where a part is drawn in the section, and nothing lies over it (px of the page). */
const spot = (designer, selector) => designer.page.evaluate((name) => {
  for (const shape of document.querySelectorAll(`.sketch.section ${name}`)) {
    shape.scrollIntoView({ block: 'center' });
    const box = shape.getBoundingClientRect();
    for (const across of [0.5, 0.25, 0.75, 0.03, 0.97, 0.1]) {
      for (const down of [0.5, 0.25, 0.75, 0.02, 0.1]) {
        const [x, y] = [box.left + across * box.width, box.top + down * box.height];
        if (document.elementFromPoint(x, y) === shape) return { x, y };
      }
    }
  }
  throw new Error(`nothing of ${name} can be pressed`);
}, selector);

test('by touch each part opens its card, and plus and minus change it', { context: PHONE }, async (designer) => {
  await designer.open();
  const tap = async (selector, name) => {
    const { x, y } = await spot(designer, selector);
    await designer.page.touchscreen.tap(x, y);
    await card(designer).getByRole('heading', { name, exact: true }).waitFor();
  };
  await tap('.void rect', 'Firebox');
  await tap('.facing rect', 'Walls');
  await tap('.insulation rect', 'Chimney');
  const more = card(designer).getByRole('button', { name: 'Chimney mouth height, larger' });
  const box = await more.boundingBox();
  assert.ok(box.width >= 44 && box.height >= 44, `${box.width} x ${box.height} px`);
  const entry = card(designer).getByRole('textbox', { name: 'Chimney mouth height' });
  assert.ok(await entry.evaluate((element) => element.getBoundingClientRect().bottom <= innerHeight),
    'a finger has the card brought into view');
  const before = Number(await entry.inputValue());
  await more.tap();
  assert.ok(Number(await entry.inputValue()) > before);
  await card(designer).getByRole('button', { name: 'Chimney mouth height, smaller' }).tap();
  assert.equal(Number(await entry.inputValue()), before);
});

test('card, decisions and drawing say the same, and a press is one step', {}, async (designer) => {
  await designer.open();
  await card(designer).getByRole('button', { name: 'Clearances', exact: true }).click();
  assert.equal(await title(designer), 'Clearances');
  const side = card(designer).getByRole('textbox', { name: 'Clearance at the sides' });
  const before = await side.inputValue();
  await side.fill('450');
  await side.press('Enter');
  await designer.openGroup('Surroundings');
  assert.equal(await designer.entry('Clearance at the sides').inputValue(), '450');
  assert.equal(await side.inputValue(), '450');
  await side.fill('-5');
  await side.press('Enter');
  assert.notEqual(await card(designer).getByRole('alert').first().textContent(), '');
  await designer.button('Undo').click();
  assert.equal(await side.inputValue(), before);
});

test('without runs the card turns to the firebox', {}, async (designer) => {
  await designer.open();
  assert.equal(await title(designer), 'Run 1');
  await designer.entry('Runs').fill('0');
  await designer.entry('Runs').press('Enter');
  assert.equal(await title(designer), 'Firebox');
});

test('front and plan are there on a phone when asked for', { context: PHONE }, async (designer) => {
  await designer.open();
  const { page } = designer;
  const front = page.getByRole('heading', { name: 'From the front' });
  assert.equal(await front.isVisible(), false, 'the entries come first');
  await designer.button('Front and plan').tap();
  assert.equal(await designer.button('Front and plan').getAttribute('aria-pressed'), 'true');
  await page.locator('.sketch.front .facing').first().waitFor();
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(overflow, 0, 'no sideways scroll');
  await designer.button('Front and plan').tap();
  assert.equal(await front.isVisible(), false);
});
