// Finding one's way: the list of sections, the glossary, the walk.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const LAPTOP = { viewport: { width: 1440, height: 900 } };
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const list = (designer) => designer.page.getByRole('navigation', { name: 'Sections' });
/** Name of the section that the list marks. */
const current = (designer) => list(designer).locator('[aria-current]').textContent();
const inView = (locator) => locator.evaluate((element) => {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
});

test('on a laptop the list leads to each section and marks where one is', { context: LAPTOP }, async (designer) => {
  await designer.open();
  await designer.stripDone();
  assert.equal(await current(designer), 'Drawing');
  const names = await list(designer).locator('li button:visible').allTextContents();
  assert.ok(names.length >= 12, names.join());
  for (const name of ['1 to 10 runs', 'The day', 'Other ways', 'Sources', 'Smoke path']) {
    await list(designer).getByRole('button', { name, exact: true }).click();
    await list(designer).locator('[aria-current]', { hasText: name }).waitFor();
    assert.ok(await inView(designer.page.locator('h2:focus')), name);
    assert.ok(await inView(list(designer)), 'the list stays at hand');
  }
});

test('the list is reached and used by keyboard', { context: LAPTOP }, async (designer) => {
  await designer.open();
  await designer.page.keyboard.press('Tab');
  await designer.page.keyboard.press('Tab');
  await designer.page.keyboard.press('Enter');
  await designer.page.locator('#contents:focus').waitFor();
  for (let at = 0; at < 24; at += 1) {
    await designer.page.keyboard.press('Tab');
    if (await designer.page.locator('button:focus', { hasText: 'Working' }).count()) break;
  }
  await designer.page.keyboard.press('Enter');
  await designer.page.locator('h2:focus', { hasText: 'How the figures came about' }).waitFor();
  // What was folded is open now.
  await designer.page.getByTestId('workings').getByLabel('Figure').first().waitFor();
});

test('on a phone the list opens above the thumb and shuts by itself', { context: PHONE }, async (designer) => {
  await designer.open();
  const open = designer.button('Sections');
  await open.tap();
  const entry = list(designer).getByRole('button', { name: 'Findings', exact: true });
  const box = await entry.boundingBox();
  assert.ok(box.height >= 44, `${box.height} px`);
  await entry.tap();
  assert.ok(await inView(designer.page.locator('#findings-title')));
  assert.equal(await open.getAttribute('aria-expanded'), 'false');
  await open.tap();
  await designer.page.keyboard.press('Escape');
  assert.equal(await open.getAttribute('aria-expanded'), 'false');
});

test('a word of the trade is explained where it is asked about, and in the glossary', {}, async (designer) => {
  await designer.open();
  const field = designer.page.locator('.field').filter({
    has: designer.page.getByRole('textbox', { name: 'Bleed slot', exact: true }),
  });
  await designer.page.locator('#decisions summary:visible').first().click();
  const words = field.getByRole('button', { name: /^Words/ });
  await words.click();
  assert.match(await field.getByRole('listitem').allTextContents().then((all) => all.join(' ')),
    /Bleed slot: .*gas slot \(EN 15544\)/);
  await words.click();
  assert.equal(await field.getByRole('listitem').count(), 0);
  const glossary = designer.page.getByTestId('glossary');
  await glossary.locator('summary').first().click();
  await glossary.locator('summary', { hasText: 'Smoke path' }).click();
  await glossary.getByRole('row', { name: /^Baffle/ }).waitFor();
});

const card = (designer) => designer.page.getByRole('region', { name: 'A walk through the page' });

test('a first visit is shown round by keyboard, and not again', { firstVisit: true, context: LAPTOP }, async (designer) => {
  await designer.open();
  await card(designer).getByText('Decisions').waitFor();
  // It blocks nothing and moves nothing.
  assert.equal(await designer.page.evaluate(() => scrollY), 0);
  await designer.drag('Runs', 6);
  const pointed = designer.page.locator('[data-pointed]');
  const seen = [];
  const next = card(designer).getByRole('button', { name: /Next|Done/ });
  await next.focus();
  for (let stop = 0; stop < 6; stop += 1) {
    seen.push(await card(designer).getByRole('heading').textContent());
    assert.equal(await pointed.count(), 1, seen.at(-1));
    await pointed.evaluate((part) => new Promise((done) => {
      const look = () => {
        const { top, bottom } = part.getBoundingClientRect();
        if (bottom > 0 && top < innerHeight) done(); else requestAnimationFrame(look);
      };
      look();
    }));
    await designer.page.keyboard.press('Enter');
  }
  assert.equal(new Set(seen).size, 6, seen.join());
  await card(designer).waitFor({ state: 'hidden' });
  assert.equal(await pointed.count(), 0);
  assert.notEqual(await designer.page.evaluate(() => document.activeElement.tagName), 'BODY');
  await designer.page.reload();
  await designer.stripDone();
  assert.ok(await card(designer).isHidden());
});

test('the walk can be left at once and called again', { firstVisit: true, context: PHONE }, async (designer) => {
  await designer.open();
  await card(designer).getByRole('button', { name: 'Close' }).tap();
  await card(designer).waitFor({ state: 'hidden' });
  await designer.more();
  await designer.button('Show me round').tap();
  await card(designer).getByText('Decisions').waitFor();
  await designer.page.locator('#walk:focus').waitFor();
  await designer.page.keyboard.press('Escape');
  await card(designer).waitFor({ state: 'hidden' });
});

test('whoever comes by a link is not shown round', { firstVisit: true }, async (designer) => {
  await designer.open();
  const fragment = new URL(await designer.link()).hash;
  await designer.page.evaluate(() => localStorage.clear());
  await designer.page.goto('about:blank');
  await designer.open(fragment);
  await designer.stripDone();
  assert.ok(await card(designer).isHidden());
});

test('the walk moves nothing that is shown', {
  firstVisit: true, context: LAPTOP, onlyInChromium: 'Firefox measures no layout shift',
}, async (designer) => {
  await designer.page.addInitScript(() => {
    globalThis.shift = 0;
    new PerformanceObserver((found) => {
      for (const entry of found.getEntries()) if (!entry.hadRecentInput) globalThis.shift += entry.value;
    }).observe({ type: 'layout-shift', buffered: true });
  });
  await designer.open();
  await card(designer).getByText('Decisions').waitFor();
  await designer.page.locator('[data-testid="edges"][aria-busy="false"]').waitFor({ timeout: 50_000 });
  const before = await designer.page.evaluate(() => globalThis.shift);
  for (let stop = 0; stop < 6; stop += 1) {
    await card(designer).getByRole('button', { name: /Next|Done/ }).click();
  }
  await card(designer).waitFor({ state: 'hidden' });
  assert.equal(await designer.page.evaluate(() => globalThis.shift), before);
});
