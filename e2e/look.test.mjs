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
    await designer.more();
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
  await designer.more();
  await designer.page.getByLabel('Colors').selectOption('light');
  assert.notEqual(await color(), dark);
});

/** Pairs of colors that stand on each other, and the contrast that they need. */
const GROUNDS = ['paper', 'sheet', 'wash'];
const TEXTS = ['ink', 'quiet', 'ember', 'slate', 'good', 'look', 'stop'];

/** Contrast of colors of the style sheet (WCAG 2.2), as the browser mixes them. */
const contrasts = (designer, pairs) => designer.page.evaluate((all) => {
  const canvas = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  const probe = document.body.appendChild(document.createElement('i'));
  const luminance = (name) => {
    probe.style.color = `var(--${name})`;
    canvas.fillStyle = getComputedStyle(probe).color;
    canvas.fillRect(0, 0, 1, 1);
    const [r, g, b] = [...canvas.getImageData(0, 0, 1, 1).data].map((byte) => {
      const part = byte / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const found = all.map(([one, other]) => {
    const [low, high] = [luminance(one), luminance(other)].toSorted((a, b) => a - b);
    return [one, other, (high + 0.05) / (low + 0.05)];
  });
  probe.remove();
  return found;
}, pairs);

for (const [theme, text, line] of [['light', 4.5, 3], ['dark', 4.5, 3], ['bright', 7, 4.5]]) {
  test(`texts, marks and lines stand out in the ${theme} theme`, {
    context: { viewport: { width: 1440, height: 900 } },
  }, async (designer) => {
    await designer.open();
    await designer.stripDone();
    await designer.more();
    await designer.page.getByLabel('Colors').selectOption(theme);
    const texts = GROUNDS.flatMap((ground) => TEXTS.map((name) => [name, ground]));
    for (const [one, other, found] of await contrasts(designer, [...texts, ['on-ember', 'ember']])) {
      assert.ok(found >= text, `${one} on ${other}: ${found.toFixed(2)}`);
    }
    const lines = ['paper', 'sheet'].map((ground) => ['edge', ground]);
    const inSun = theme === 'bright' ? [['line', 'paper'], ['masonry-line', 'masonry'], ['facing-line', 'facing']] : [];
    for (const [one, other, found] of await contrasts(designer, lines)) {
      assert.ok(found >= line, `${one} on ${other}: ${found.toFixed(2)}`);
    }
    for (const [one, other, found] of await contrasts(designer, inSun)) {
      assert.ok(found >= 3, `${one} on ${other}: ${found.toFixed(2)}`);
    }
    await designer.page.screenshot({ path: `build/screenshots/1440-${theme}.png`, fullPage: true });
    // It is kept on the device, and the plots follow.
    await designer.page.reload();
    await designer.stripDone();
    assert.equal(await designer.page.getByLabel('Colors').inputValue(), theme);
  });
}
