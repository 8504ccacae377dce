// Other ways to build it: runs with a day each, inputs over their ranges, copies beside each
// other, suggestions; and the card of one run.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

/** A study that is computed when somebody unfolds it. */
class Study {
  constructor(designer, name) {
    this.page = designer.page;
    this.view = designer.page.getByTestId(name);
  }

  async unfold() {
    await this.view.locator('> summary').click();
  }

  /** Waits until what was asked for is there. */
  async done() {
    await this.view.and(this.page.locator('[aria-busy="true"]')).waitFor();
    await this.view.and(this.page.locator('[aria-busy="false"]')).waitFor({ timeout: 50_000 });
  }

  /** Cells of the first table, row by row. */
  async rows() {
    const rows = await this.view.locator('table').first().locator('tbody tr').all();
    return Promise.all(rows.map((row) => row.locator('th, td').allInnerTexts()));
  }
}

test('one to ten runs are compared with a day each', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'compare');
  await study.unfold();
  await study.done();
  const text = await study.view.textContent();
  assert.match(text, /Best with \d+ runs|No number of runs/);
  const efficiency = (await study.rows()).find(([name]) => name.startsWith('Efficiency'));
  assert.equal(efficiency.length, 11);
  const figures = efficiency.slice(1).map(Number.parseFloat);
  figures.slice(1).forEach((figure, index) => assert.ok(figures[index] < figure, 'more runs keep more'));
});

test('an input is tried over its range, two as a map', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'sweep');
  await study.unfold();
  await study.view.locator('select').first().selectOption({ label: 'Run length' });
  await study.done();
  assert.equal((await study.rows())[0].length, 10);
  await study.view.locator('select').nth(1).selectOption({ label: 'Runs' });
  await study.done();
  assert.match(await study.view.textContent(), /Runs/);
});

test('copies stand beside the design', {}, async (designer) => {
  await designer.open();
  await designer.button('Designs').click();
  await designer.button('Keep a copy of this design').click();
  await designer.page.getByLabel('Name of the design').fill('Shorter');
  await designer.entry('Run length').fill('1.5');
  await designer.entry('Run length').press('Enter');
  const study = new Study(designer, 'pinned');
  await study.unfold();
  await designer.page.getByRole('checkbox', { name: 'North farmhouse' }).check();
  await study.done();
  const rows = await study.rows();
  assert.ok(rows.some(([name]) => name === 'Run length'), 'what differs is told');
  assert.ok(!rows.some(([name]) => name === 'Charge'), 'what is the same is not');
});

test('a suggestion is taken as one step', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'suggest');
  await study.unfold();
  await study.view.getByLabel('Day of the design').check();
  await study.view.getByRole('button', { name: 'Suggest', exact: true }).click();
  await study.done();
  const before = await designer.link();
  await study.view.getByRole('button', { name: 'Take design 1' }).click();
  assert.notEqual(await designer.link(), before);
  await designer.button('Undo').click();
  assert.equal(await designer.link(), before);
});

test('a search can be given up', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'suggest');
  await study.unfold();
  await study.view.getByRole('button', { name: 'Suggest', exact: true }).click();
  await study.view.getByRole('button', { name: 'Cancel' }).click();
  await study.view.and(designer.page.locator('[aria-busy="false"]')).waitFor();
  assert.equal(await study.view.getByRole('button', { name: 'Cancel' }).isVisible(), false);
});

test('a run is given sizes of its own and is like all others again', {}, async (designer) => {
  await designer.open();
  const card = designer.page.getByTestId('run-card');
  await card.getByRole('button', { name: 'Run 3', exact: true }).click();
  assert.equal(await card.getByRole('heading').textContent(), 'Run 3');
  const height = card.getByRole('textbox', { name: 'Run height' });
  const common = await height.inputValue();
  await height.fill('6');
  await height.press('Enter');
  assert.match(await card.getByRole('alert').last().textContent(), /60/);
  await height.fill('260');
  await height.press('Enter');
  assert.equal(await height.inputValue(), '260');
  assert.equal(await designer.entry('Run height').inputValue(), common, 'the others stay');
  await card.getByRole('button', { name: 'Run 2', exact: true }).click();
  assert.equal(await height.inputValue(), common);
  await card.getByRole('button', { name: 'Run 3', exact: true }).click();
  const fragment = new URL(await designer.link()).hash;
  await card.getByRole('button', { name: 'As all runs' }).click();
  assert.equal(await height.inputValue(), common);
  await designer.page.goto('about:blank');
  await designer.open(fragment);
  await card.getByRole('button', { name: 'Run 3', exact: true }).click();
  assert.equal(await height.inputValue(), '260', 'a link carries it');
});
