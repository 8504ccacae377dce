// What is read, by eye or by ear: units, order, numbers, announcements, sizes of text.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

test('findings follow the units', {}, async (designer) => {
  await designer.open();
  await designer.drag('Runs', 1);
  const findings = designer.page.locator('#findings .answered ul:not(.always)');
  // The working is in both systems.
  const texts = () => findings.evaluateAll((lists) => lists.map((list) => {
    const read = list.cloneNode(true);
    for (const working of read.querySelectorAll('details')) working.remove();
    return read.textContent;
  }).join(' '));
  assert.match(await texts(), /°C/);
  await designer.button('US').click();
  assert.match(await texts(), /°F/);
  // What a source is quoted with stands in both, "250 °C (480 °F)".
  assert.doesNotMatch(await texts(), /°C(?! \()/);
});

test('findings are numbered as one reads them, in list and drawing', {}, async (designer) => {
  await designer.open();
  await designer.drag('Runs', 10);
  await designer.openGroup('Wood and fire');
  await designer.entry('Moisture (wet basis)').fill('35');
  const numbers = await designer.page.locator('.finding .number').allTextContents();
  assert.ok(numbers.length > 2);
  assert.deepEqual(numbers, numbers.map((_, index) => String(index + 1)));
  const marks = await designer.page.locator('.sketch.section .warning text').allTextContents();
  assert.deepEqual(marks.map(Number).sort((a, b) => a - b).map(String), numbers);
});

test('the answers are announced once the design rests', {}, async (designer) => {
  await designer.open();
  const announced = designer.figure('announced');
  const before = await announced.textContent();
  await designer.drag('Runs', 1);
  assert.equal(await announced.textContent(), before);
  await announced.filter({ hasText: 'Is it safe? No' }).waitFor();
  assert.match(await announced.textContent(), /^Will it draw\? .* Will the heat stay\? /);
});

test('a question takes the focus to its findings, which light up in the drawing', {}, async (designer) => {
  await designer.open();
  await designer.drag('Runs', 1);
  await designer.page.getByRole('button', { name: /^Is it safe/ }).click();
  await designer.page.locator('#findings-safe:focus').waitFor();
  await designer.page.locator('.finding .go:visible').first().focus();
  assert.ok(await designer.page.locator('.sketch .marked').count() > 0);
});

test('an order that a worker cannot read is answered', {}, async (designer) => {
  await designer.open();
  assert.equal(await designer.askWorker('nonsense 1'), '{"unread":true}');
});

/** Sizes of the texts in the drawings (CSS px). */
// What a width does not show has no box, and no size.
const textSizes = (designer) => designer.page.evaluate(() =>
  [...document.querySelectorAll('.sketch text')].filter((text) => text.getClientRects().length).map((text) =>
    Number.parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().d));

for (const width of [390, 820, 1440]) {
  test(`texts in drawings can be read at ${width} px`, {
    context: { viewport: { width, height: 844 } },
  }, async (designer) => {
    await designer.open();
    for (const units of ['Metric', 'US']) {
      await designer.more();
      await designer.button(units).click();
      const sizes = (await textSizes(designer)).filter((size) => size > 0);
      assert.ok(Math.min(...sizes) >= 11, `${units}: ${Math.min(...sizes)} px`);
    }
  });
}

test('on a phone one reads and tabs in one order, and comes to the entries soon', {
  context: { viewport: { width: 390, height: 844 } },
}, async (designer) => {
  await designer.open();
  const tops = await designer.page.evaluate(() =>
    ['.questions', '.drawing', '.decisions', '.findings', '.unrolled', '.strip', '.plot', '.ledger']
      .map((part) => document.querySelector(part))
      .sort((a, b) => a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1)
      .map((part) => [part.className, part.getBoundingClientRect().top]));
  assert.deepEqual(tops.map(([name]) => name.split(' ')[0]),
    ['questions', 'drawing', 'decisions', 'findings', 'unrolled', 'strip', 'plot', 'ledger']);
  assert.deepEqual(tops, tops.toSorted(([, a], [, b]) => a - b));
  // Those of the part that is chosen stand below the drawing.
  const first = await designer.page.locator('.part-card input:visible').first().boundingBox();
  assert.ok(first.y < 2 * 844, `${first.y} px`);
});

test('text of twice the size fits', {
  onlyInChromium: 'sets the size of text by the browser\'s own protocol',
  context: { viewport: { width: 1440, height: 3000 } },
}, async (designer) => {
  const session = await designer.page.context().newCDPSession(designer.page);
  await session.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
  await designer.open();
  await designer.drag('Runs', 1);
  await designer.stripDone();
  const size = await designer.page.evaluate(() => getComputedStyle(document.documentElement).fontSize);
  assert.equal(size, '32px');
  const wide = await designer.page.evaluate(() =>
    ['html', '.decisions', '.findings', '.questions', '.strip']
      .filter((part) => {
        const element = document.querySelector(part);
        return element.scrollWidth > element.clientWidth + 1;
      }));
  assert.deepEqual(wide, [], 'no sideways scroll');
  await designer.page.screenshot({ path: 'build/screenshots/1440-twice.png' });
});
