// What would mend a finding: sought in a worker, shown below it, tried by a press, undone by one.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { test } from './harness.mjs';

/** Gives the demonstration runs that are too many and too narrow for its chimney. */
async function poorDraft(designer) {
  await designer.open();
  for (const [label, value] of [['Runs', '8'], ['Run width', '110']]) {
    await designer.entry(label).fill(value);
    await designer.entry(label).press('Enter');
  }
}

/** The finding on draft, whichever weight it has. */
const draft = (designer) => designer.page.locator('[data-rule^="draft-"]');

test('a remedy is tried by a press, mends the finding, and is undone by one', {}, async (designer) => {
  await poorDraft(designer);
  const finding = draft(designer);
  await finding.getByText('Trying which single change').waitFor();
  const tries = finding.getByRole('button', { name: /^Try it: \w.*\d.*\.$/ });
  await tries.first().waitFor({ timeout: 40_000 });
  assert.ok(await tries.count() <= 3);
  assert.match(await finding.locator('.trades').first().textContent(), /draft to spare -?\d.*, then \d/);
  const width = finding.getByRole('button', { name: /^Try it: Widen the runs/ });
  const named = (await width.getAttribute('aria-label')).match(/[\d.]+/)[0];
  await width.click();
  assert.equal(await finding.count(), 0);
  assert.equal(await designer.entry('Run width').inputValue(), named);
  await designer.page.locator('#findings-draw:focus').waitFor();
  await designer.button('Undo').click();
  await finding.waitFor();
  assert.equal(await designer.entry('Run width').inputValue(), '110');
});

test('what no single change mends says so', {}, async (designer) => {
  await designer.open();
  await designer.openGroup('House and site');
  await designer.page.locator('#decisions summary:visible').click();
  await designer.entry('Wind onto the mouth').fill('60');
  await designer.entry('Wind onto the mouth').press('Enter');
  await draft(designer).getByText('No single change').waitFor({ timeout: 40_000 });
  assert.equal(await draft(designer).getByRole('button', { name: /^Try it/ }).count(), 0);
});

test('remedies are in the steps and units that are shown', {}, async (designer) => {
  await poorDraft(designer);
  await designer.button('US').click();
  const act = draft(designer).locator('.act').filter({ hasText: 'Widen' });
  await act.waitFor({ timeout: 40_000 });
  assert.match(await act.textContent(), /to \d+( 1\/2)? in\.$/);
});

for (const [name, width, height] of [['laptop', 1440, 900], ['phone', 390, 844]]) {
  test(`a picture of remedies, ${name}`, { context: { viewport: { width, height } } }, async (designer) => {
    await poorDraft(designer);
    await draft(designer).getByRole('button', { name: /^Try it/ }).first().waitFor({ timeout: 40_000 });
    await mkdir('build/e2e', { recursive: true });
    await designer.page.locator('#findings').screenshot({ path: `build/e2e/remedies-${name}.png` });
    const wide = await designer.page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= width, `${wide}`);
  });
}
