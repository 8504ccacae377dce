// What the figures are worth in the page: bands, shares of answers, what matters most, and safety
// at its unfavorable edge.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { test } from './harness.mjs';
import { checked } from './native.mjs';

/** The section as a person uses it. */
class Worth {
  constructor(designer) {
    this.designer = designer;
    this.page = designer.page;
    this.section = this.page.getByTestId('worth');
    this.state = this.page.getByTestId('worth-state');
  }

  /** Waits until the bands of the present design are shown. */
  async done() {
    await this.page.locator('[data-testid="worth"][aria-busy="false"]').waitFor();
  }

  /** Waits until the edges of the present design are judged. */
  async judged() {
    await this.page.locator('[data-testid="edges"][aria-busy="false"]').waitFor({ timeout: 60_000 });
  }

  /** Rows of the table of what matters, as name, share, way. */
  async ranking() {
    const rows = await this.section.locator('label + div:visible, label ~ div:visible')
      .locator('tbody tr').all();
    return Promise.all(rows.map((row) => row.locator('th, td').allTextContents()));
  }
}

test('bands and cases are those of the native command', {}, async (designer) => {
  const { uncertainty } = checked();
  await designer.open();
  const worth = new Worth(designer);
  await worth.done();
  const { p05, p95 } = uncertainty.figures.chimney_inlet_celsius;
  assert.equal(
    await designer.text('chimney-inlet-band'),
    `${p05.toFixed(0)} to ${p95.toFixed(0)} °C in 90 of 100 cases`,
  );
  const yes = Math.floor(100 * uncertainty.answers.will_it_draw.yes_fraction + 1e-9);
  assert.match(await designer.text('cases-draw'), new RegExp(`yes in ${yes} of 100 cases`));
  assert.match(await worth.section.textContent(), new RegExp(uncertainty.answers_in_words.is_it_safe));
  const names = uncertainty.spreads_in_words;
  const expected = uncertainty.figures.margin_pascals.ranking
    .map(({ spread }) => names.find((each) => each.spread === spread).name);
  assert.deepEqual((await worth.ranking()).map(([name]) => name), expected);
});

test('what matters most follows the figure that is chosen', {}, async (designer) => {
  await designer.open();
  const worth = new Worth(designer);
  await worth.done();
  const before = await worth.ranking();
  await worth.page.getByLabel('For the figure').selectOption({ label: 'Gas into the chimney' });
  const after = await worth.ranking();
  assert.notDeepEqual(after, before);
  assert.ok(after.every(([, share, way]) => /%/.test(share) && /lowers it|raises it/.test(way)));
  await worth.section.locator('summary').first().click();
  assert.match(await worth.section.textContent(), /Authors put a reversal.*between 2\.0 and 4\.5/);
});

test('a change grays the bands, renews them and moves nothing', {}, async (designer) => {
  await designer.open();
  const worth = new Worth(designer);
  // The line of the questions may grow with what is found; the key figures may not.
  const room = async () => (await designer.page.locator('.figures').boundingBox()).height;
  const height = await room();
  await worth.done();
  assert.equal(await room(), height, 'the bands have their room before they come');
  const band = designer.figure('chimney-inlet-band');
  const before = await band.textContent();
  await designer.openGroup('Wood and fire');
  await designer.whileWorkersWait(async () => {
    await designer.entry('Charge').fill('18');
    assert.equal(await worth.section.getAttribute('aria-busy'), 'true');
    assert.match(await band.getAttribute('class'), /stale/);
    assert.equal(await band.textContent(), before, 'the old band stays, grayed');
  });
  await worth.done();
  assert.doesNotMatch(await band.getAttribute('class'), /stale/);
  assert.notEqual(await band.textContent(), before);
  assert.equal(await room(), height);
});

test('the samples are canceled and started again', {}, async (designer) => {
  await designer.open();
  const worth = new Worth(designer);
  await worth.done();
  const band = designer.figure('chimney-inlet-band');
  const before = await band.textContent();
  await designer.openGroup('Wood and fire');
  // The edges have a button of their own.
  const press = (name) => worth.state.locator('..').getByRole('button', { name, exact: true }).click();
  // Out of sight, Firefox does not notice that a button came.
  await worth.section.scrollIntoViewIfNeeded();
  await designer.whileWorkersWait(async () => {
    await designer.entry('Charge').fill('18');
    await press('Cancel');
    assert.match(await worth.state.textContent(), /^Canceled/);
    assert.equal(await worth.section.getAttribute('aria-busy'), 'false');
  });
  await designer.page.waitForTimeout(2000);
  assert.equal(await band.textContent(), before, 'nothing more comes');
  assert.match(await band.getAttribute('class'), /stale/);
  await press('Start again');
  await worth.done();
  assert.doesNotMatch(await band.getAttribute('class'), /stale/);
  assert.notEqual(await band.textContent(), before);
});

test('of many fast changes the last one is sampled', {}, async (designer) => {
  await designer.open();
  const worth = new Worth(designer);
  await worth.done();
  const shown = await designer.text('chimney-inlet-band');
  await designer.openGroup('Wood and fire');
  const charge = await designer.entry('Charge').inputValue();
  for (const [value, pause] of [['10', 450], ['17', 430], [charge, 0]]) {
    await designer.entry('Charge').fill(value);
    await designer.page.waitForTimeout(pause);
  }
  await worth.done();
  assert.equal(await designer.text('chimney-inlet-band'), shown);
});

test('safety is judged at the edge as soon as it is known', {}, async (designer) => {
  const { edges } = checked();
  await designer.open();
  const worth = new Worth(designer);
  await worth.judged();
  const row = await worth.page.getByRole('row', { name: 'Gas into the chimney, hottest' }).textContent();
  const { nominal_celsius: nominal, edge_celsius: edge } = edges.peak_gas;
  assert.ok(nominal < edge);
  assert.match(row, new RegExp(`${nominal.toFixed(0)} °C.*up to ${edge.toFixed(0)} °C`));
  // A chimney rated between the two is to be looked at again.
  await designer.openGroup('Chimney');
  const rating = designer.entry('Chimney rating');
  await rating.fill(((nominal + edge) / 2).toFixed(0));
  await worth.judged();
  await designer.page.locator('[data-rule="overload-may-pass-chimney-rating"]').waitFor();
  await rating.fill((nominal - 10).toFixed(0));
  await worth.judged();
  await designer.page.locator('[data-rule="overload-above-chimney-rating"]').waitFor();
});

for (const [width, colorScheme] of [[390, 'light'], [1440, 'light'], [1440, 'dark']]) {
  test(`the bands are legible at ${width} px, ${colorScheme}`, {
    context: { viewport: { width, height: 900 }, colorScheme, deviceScaleFactor: 2 },
  }, async (designer) => {
    await designer.open();
    const worth = new Worth(designer);
    await worth.done();
    await worth.judged();
    const overflow = await designer.page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    assert.equal(overflow, 0, 'no sideways scroll');
    await worth.section.locator('summary').first().click();
    const folder = 'build/screenshots';
    await mkdir(folder, { recursive: true });
    await designer.page.evaluate(() => {
      for (const part of document.querySelectorAll('.questions, .caution')) {
        part.style.position = 'static';
      }
    });
    for (const part of ['.worth', '.plot', '.drawing', '.findings']) {
      const path = `${folder}/${width}-${colorScheme}-${part.slice(1)}.png`;
      await designer.page.locator(part).screenshot({ path });
    }
  });
}
