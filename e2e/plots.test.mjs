// The plots: read by pointer and by keyboard, sharp, and in step with theme, size and units.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const LAPTOP = { viewport: { width: 1440, height: 900 } };
const line = (designer) => designer.page.getByTestId('path-moment');
const canvas = (designer) => designer.page.getByTestId('path-plot');
/** A fingerprint of what is painted. */
const painted = (locator) => locator.evaluate((element) => element.toDataURL());
/** Plots are painted once they are in sight. */
const inSight = async (designer) => {
  await canvas(designer).scrollIntoViewIfNeeded();
  await designer.page.waitForFunction(() => document.querySelector('[data-testid="path-plot"]').width !== 300);
};
const gas = async (designer) => Number(/gas (\d+)/.exec(await line(designer).textContent())[1]);

test('the temperatures along the path are read by pointer', { context: LAPTOP }, async (designer) => {
  await designer.open();
  await inSight(designer);
  const box = await canvas(designer).boundingBox();
  const at = async (share) => {
    const before = await line(designer).textContent();
    await designer.page.mouse.move(box.x + share * box.width, box.y + box.height / 2);
    await line(designer).filter({ hasNotText: before }).waitFor();
    return gas(designer);
  };
  // Left of its axis the cursor stands at the firebox, right of it at the mouth.
  const first = await at(0.01);
  const [station] = await designer.page.locator('.plot .twin tbody tr').allTextContents();
  assert.ok(station.includes(`${first} °C`), `${station}: ${first}`);
  const last = await at(0.99);
  const stations = await designer.page.locator('.plot .twin tbody tr').allTextContents();
  assert.ok(stations.at(-1).includes(`${last} °C`), `${stations.at(-1)}: ${last}`);
  const between = await at(0.4);
  assert.ok(last < between && between < first, `${first}, ${between}, ${last}`);
});

test('and by keyboard, with place, band and wall', { context: LAPTOP }, async (designer) => {
  await designer.open();
  const slider = designer.page.getByRole('slider', { name: 'Place shown' });
  await slider.focus();
  await inSight(designer);
  await designer.page.keyboard.press('Home');
  assert.match(await slider.getAttribute('aria-valuetext'), /^At 0\.00 m, run 1: gas \d+ °C/);
  const before = await painted(canvas(designer));
  for (let step = 0; step < 10; step += 1) await designer.page.keyboard.press('ArrowRight');
  assert.notEqual(await painted(canvas(designer)), before, 'the cursor is drawn');
  await line(designer).filter({ hasText: /in 90 of 100 cases\), inner wall \d+ °C/ }).waitFor();
  await designer.page.keyboard.press('End');
  assert.match(await line(designer).textContent(), /chimney: gas/);
  await designer.button('US').click();
  assert.match(await line(designer).textContent(), /^At \d+\.\d\d ft, .* °F/);
});

test('plots are sharp, and follow size and theme', {
  context: { ...LAPTOP, deviceScaleFactor: 2 },
}, async (designer) => {
  await designer.open();
  await inSight(designer);
  const sharp = () => canvas(designer).evaluate((element) => {
    const { width, height } = element.getBoundingClientRect();
    return [element.width, element.height, Math.round(2 * width), Math.round(2 * height)];
  });
  const [width, height, wide, high] = await sharp();
  assert.deepEqual([width, height], [wide, high]);
  const light = await painted(canvas(designer));
  for (const theme of ['dark', 'bright']) {
    await designer.more();
    await designer.page.getByLabel('Colors').selectOption(theme);
    await inSight(designer);
    await designer.page.waitForFunction(
      ([id, last]) => document.querySelector(`[data-testid="${id}"]`).toDataURL() !== last,
      ['path-plot', light],
    );
  }
  await designer.page.setViewportSize({ width: 800, height: 900 });
  await inSight(designer);
  await designer.page.waitForFunction(() => {
    const element = document.querySelector('[data-testid="path-plot"]');
    return element.width === Math.round(2 * element.getBoundingClientRect().width);
  });
  assert.ok((await sharp())[0] !== width);
});
