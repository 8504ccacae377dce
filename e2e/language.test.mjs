// Another language: chosen on the page, kept on the device, complete, and left again.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from './harness.mjs';

const AXE = await readFile(new URL(import.meta.resolve('axe-core/axe.min.js')), 'utf8');
const PHONE = { viewport: { width: 390, height: 844 } };
const LAPTOP = { viewport: { width: 1440, height: 900 } };
/** Words that stand in many English sentences of the page and in no German one. */
const ENGLISH = /\b(the|of|and|with|is|are|from|by|that|it|heater|run|runs|chimney|firebox)\b/;
/** What keeps its name: terms of North American rules, titles of publications. */
const NAMES = new RegExp([
  'seismic design category', 'chimney connector', 'hearth extension', 'masonry heater \\(ASTM E1602\\)',
  'Brick Institute of America', 'The Properties of Gases and Liquids', 'Combustion and Flame',
  'Augmentation of Convective Heat and Mass Transfer', 'Conduction of Heat in Solids', 'Fire and Materials',
].join('|'), 'g');

/** The choice of the language under its name, behind the button that stands for more in either. */
const choice = (designer, name) => designer.page.getByLabel(name, { exact: true });
const chosen = (designer, name) => choice(designer, name).waitFor({ state: 'attached' });

async function choose(designer, name, language) {
  const more = designer.page.getByRole('button', { name: /^(More|Mehr)$/ });
  if (await more.getAttribute('aria-expanded') !== 'true') await more.click();
  await choice(designer, name).selectOption(language);
}

async function toGerman(designer) {
  await designer.open();
  await choose(designer, 'Language', 'de');
  await chosen(designer, 'Sprache');
}

test('the page turns German and back, and a reload keeps it', { context: LAPTOP }, async (designer) => {
  await designer.open();
  const margin = await designer.text('margin');
  await toGerman(designer);
  assert.equal(await designer.page.evaluate(() => document.documentElement.lang), 'de');
  const question = designer.page.getByText('Wird er ziehen?').first();
  await question.waitFor();
  // The same figure, with its decimal comma.
  assert.equal(await designer.text('margin'), margin.replace('.', ','));
  await designer.page.getByRole('navigation', { name: 'Abschnitte' }).getByRole('button', { name: 'Zeichnung' }).waitFor();
  assert.ok(await designer.page.locator('.finding').count() > 0);
  await designer.page.reload();
  await chosen(designer, 'Sprache');
  await choose(designer, 'Sprache', 'en');
  await chosen(designer, 'Language');
  assert.equal(await designer.text('margin'), margin);
  assert.equal(await designer.page.evaluate(() => document.documentElement.lang), 'en-US');
});

test('a decimal comma is shown in an entry and read again', { context: LAPTOP }, async (designer) => {
  await toGerman(designer);
  await designer.openGroup('Heizgasweg');
  const entry = designer.entry('Länge der Züge');
  assert.match(await entry.inputValue(), /^\d+(,\d+)?$/);
  await entry.fill('1,25');
  await entry.press('Enter');
  assert.equal(await entry.inputValue(), '1,25');
  await designer.page.reload();
  await chosen(designer, 'Sprache');
  await designer.openGroup('Heizgasweg');
  assert.equal(await designer.entry('Länge der Züge').inputValue(), '1,25');
});

test('a German browser is greeted in German, workers too', { context: { ...LAPTOP, locale: 'de-AT' } }, async (designer) => {
  await designer.open();
  await designer.page.getByText('Wird er ziehen?').first().waitFor();
  await designer.stripDone();
  // What only workers say.
  await designer.page.getByRole('heading', { name: 'An anderen Tagen' }).waitFor();
  await designer.page.getByText('Derselbe Ofen, wie Wetter').waitFor();
});

test('nothing on the German page is English', { context: { ...LAPTOP, locale: 'de-DE' }, timeout: 180_000 }, async (designer) => {
  await designer.open();
  await designer.stripDone();
  await designer.page.evaluate(() => {
    for (const folded of document.querySelectorAll('details')) folded.open = true;
  });
  await designer.page.getByText('Derselbe Ofen, wie Wetter').waitFor({ timeout: 60_000 });
  const texts = await designer.page.evaluate(() => {
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found = [];
    while (walk.nextNode()) {
      const { parentElement: parent, data } = walk.currentNode;
      if (!parent.closest('noscript, script, option[lang]')) found.push(data.trim());
    }
    for (const element of document.querySelectorAll('[aria-label], [title], [placeholder]')) {
      for (const name of ['aria-label', 'title', 'placeholder']) found.push(element.getAttribute(name) ?? '');
    }
    return found;
  });
  const english = texts.filter((text) => ENGLISH.test(text.replace(NAMES, '')));
  assert.deepEqual(english, []);
});

for (const [width, context] of [[390, PHONE], [1440, LAPTOP]]) {
  test(`the German page shuts nobody out at ${width} px, and nothing is cut off`, { context: { ...context, locale: 'de-DE' }, timeout: 120_000 }, async (designer) => {
    await designer.open();
    await designer.stripDone();
    await designer.page.evaluate(AXE);
    const violations = await designer.page.evaluate(async () => {
      const { violations: found } = await globalThis.axe.run(document, { resultTypes: ['violations'] });
      return found.flatMap(({ id, nodes }) => nodes.slice(0, 5).map(({ target }) => `${id}: ${target.join(' ')}`));
    });
    assert.deepEqual(violations, []);
    const wide = await designer.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(wide <= 0, `${wide} px beyond the window`);
    const cut = await designer.page.evaluate(() => {
      const boxes = document.querySelectorAll('button, label, h1, h2, h3, summary, th, td, dt, dd, .help, .problem');
      return [...boxes].filter((box) => {
        const { overflowX } = getComputedStyle(box);
        return box.offsetParent && overflowX !== 'auto' && overflowX !== 'scroll'
          && !box.closest('.unseen, .skip') && box.scrollWidth > box.clientWidth + 1 && box.clientWidth > 0
          && getComputedStyle(box).display !== 'inline';
      }).map((box) => `${box.tagName} ${box.className}: ${box.textContent.slice(0, 60)}`);
    });
    assert.deepEqual(cut, []);
  });
}

test('what happens when the program breaks is said in German', {
  context: { ...LAPTOP, locale: 'de-DE' }, expected: [/longsmoke-test-panic/, /unreachable/],
}, async (designer) => {
  await designer.open();
  await designer.panic();
  await designer.page.getByRole('alert').filter({ hasText: 'Etwas ist schiefgegangen' }).waitFor();
});
