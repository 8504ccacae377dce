// Nobody is shut out: axe finds nothing in any view, at the widths and in the themes of the page.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from './harness.mjs';
import { shortTour, tour } from './tour.mjs';

const AXE = await readFile(new URL(import.meta.resolve('axe-core/axe.min.js')), 'utf8');

/** What axe holds against the page or a part of it, in words. */
async function violations(page, part) {
  if (!await page.evaluate(() => 'axe' in globalThis)) await page.evaluate(AXE);
  return page.evaluate(async (selector) => {
    const place = selector ?? document;
    const { violations: found } = await globalThis.axe.run(place, { resultTypes: ['violations'] });
    return found.flatMap(({ id, nodes }) => nodes.slice(0, 5).map(
      ({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary.replace(/\s+/g, ' ')}`,
    ));
  }, part);
}

async function accessible(page, views) {
  const found = [];
  for await (const { view, part } of views) {
    found.push(...(await violations(page, part)).map((text) => `${view}: ${text}`));
  }
  assert.deepEqual(found, []);
}

test('axe finds what is wrong', {}, async (designer) => {
  await designer.open();
  await designer.page.evaluate(() => document.querySelector('.caution').append(new Image()));
  assert.match((await violations(designer.page)).join(), /image-alt/);
});

const LONG = { timeout: 420_000 };

for (const [width, theme] of [[390, 'light'], [1440, 'dark']]) {
  test(`axe finds nothing in any view at ${width} px, ${theme}`, {
    ...LONG, context: { viewport: { width, height: 900 }, colorScheme: theme },
  }, async (designer) => {
    await designer.open();
    const { hash } = new URL(await designer.link());
    await accessible(designer.page, tour(designer, hash));
  });
}

for (const width of [360, 390, 768, 1440]) {
  test(`axe finds nothing in any theme at ${width} px`, {
    ...LONG, context: { viewport: { width, height: 900 } },
  }, async (designer) => {
    await accessible(designer.page, shortTour(designer));
  });
}
