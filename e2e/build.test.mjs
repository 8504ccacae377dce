// What is typed in the tables of the build and of the house: notes of the design.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';
import { type } from './page.mjs';

const ready = async (designer, name) => {
  const section = designer.figure(name);
  await designer.page.locator(`[data-testid="${name}"][aria-busy="false"]`).waitFor();
  return section;
};
const unfold = (section, title) => section.locator('summary', { hasText: title }).first().click();

test('stock that is typed is no longer bought, and one step back it is again', {}, async (designer) => {
  await designer.open();
  const build = await ready(designer, 'build');
  await unfold(build, 'Materials');
  const row = build.locator('table').nth(1).getByRole('row', { name: /^Bricks of the facing/ });
  const left = row.locator('[data-head="Left to buy"]');
  const before = Number(await left.textContent());
  assert.ok(before > 100, `${before}`);
  const stock = row.getByRole('textbox', { name: 'Bricks of the facing, in stock' });
  await type(stock, '100');
  await stock.press('Enter');
  await left.filter({ hasText: String(before - 100) }).waitFor();
  assert.equal(await stock.inputValue(), '100');
  await designer.page.getByRole('button', { name: /^Undo/ }).click();
  await left.filter({ hasText: new RegExp(`^${before}$`) }).waitFor();
  await type(stock, 'many');
  await stock.press('Enter');
  await row.locator('[aria-invalid="true"]').waitFor();
});

test('the loss of the house is put together from its parts and taken', {}, async (designer) => {
  await designer.open();
  const house = await ready(designer, 'envelope');
  const area = (name) => house.getByRole('textbox', { name: `${name}, area`, exact: true });
  await type(area('Walls'), '120');
  await area('Walls').press('Tab');
  await house.getByRole('combobox', { name: 'Walls, built as', exact: true }).selectOption({ label: 'Layers, entered below' });
  await unfold(house, 'Layers: Walls');
  await house.getByRole('combobox', { name: 'Walls, layer 1, material', exact: true }).selectOption({ label: 'Straw bales' });
  const thickness = house.getByRole('textbox', { name: 'Walls, layer 1, thickness', exact: true });
  await type(thickness, '350');
  await thickness.press('Enter');
  // 0.35 / 0.065 + 0.17 = 5.555 m2K/W: 0.18 W/m2K, with a tenth for bridges 23.8 W/K.
  const take = house.getByRole('button', { name: 'Take 24 W/K as the heat loss of the house' });
  await take.waitFor();
  await take.click();
  await designer.openGroup('House and site');
  assert.match(await designer.entry('Heat loss of the house').inputValue(), /^23\.76/);
  const link = await designer.link();
  await designer.open(new URL(link).hash);
  const again = await ready(designer, 'envelope');
  assert.equal(await again.getByRole('textbox', { name: 'Walls, area', exact: true }).inputValue(), '120');
});

test('what is typed while the section is made anew is taken in', {}, async (designer) => {
  await designer.open();
  const house = await ready(designer, 'envelope');
  const area = (name) => house.getByRole('textbox', { name: `${name}, area`, exact: true });
  await designer.whileWorkersWait(async () => {
    await type(area('Walls'), '120');
    await area('Walls').press('Tab');
    await type(area('Floor'), '80');
    await house.and(designer.page.locator('[aria-busy="true"]')).waitFor();
  });
  await ready(designer, 'envelope');
  // 120 m2 at 0.28 W/m2K.
  await house.getByRole('row', { name: /^Walls/ }).filter({ hasText: '34 W/K' }).waitFor();
  assert.equal(await area('Floor').inputValue(), '80', 'it stays');
  await area('Floor').press('Enter');
  await house.getByRole('row', { name: /^Floor/ }).filter({ hasText: '24 W/K' }).waitFor();
});
