// Pictures of the page at its widths, and what can be measured of its look.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { test } from './harness.mjs';

for (const width of [320, 360, 390, 820, 1100, 1440]) {
  test(`nothing is cut off at ${width} px`, {
    context: { viewport: { width, height: 900 } },
  }, async (designer) => {
    await designer.open();
    await designer.stripDone();
    const overflow = await designer.page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    assert.equal(overflow, 0, 'no sideways scroll');
    await mkdir('build/screenshots', { recursive: true });
    await designer.page.screenshot({ path: `build/screenshots/${width}.png` });
    await designer.page.screenshot({ path: `build/screenshots/${width}-whole.png`, fullPage: true });
  });
}

for (const width of [390, 1440]) {
  test(`findings and a refused entry are legible at ${width} px`, {
    context: { viewport: { width, height: 900 } },
  }, async (designer) => {
    await designer.open();
    await designer.button('US').click();
    await designer.drag('Runs', 1);
    await designer.entry('Run width').fill('1/2');
    await designer.stripDone();
    await designer.page.screenshot({ path: `build/screenshots/${width}-findings.png`, fullPage: true });
    assert.ok(await designer.page.locator('.finding').count() > 0);
  });
}

test('the dark theme is dark', {
  context: { viewport: { width: 1440, height: 900 }, colorScheme: 'dark' },
}, async (designer) => {
  await designer.open();
  await designer.stripDone();
  const color = () => designer.page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const dark = await color();
  await mkdir('build/screenshots', { recursive: true });
  await designer.page.screenshot({ path: 'build/screenshots/1440-dark.png', fullPage: true });
  await designer.page.getByLabel('Colors').selectOption('light');
  assert.notEqual(await color(), dark);
});
