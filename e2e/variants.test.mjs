// Other ways to build it: runs with a day each, inputs over their ranges, copies beside each
// other, suggestions; and the card of one run.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';
import { type } from './page.mjs';

/** A study that is computed when somebody unfolds it. */
class Study {
  constructor(designer, name) {
    this.designer = designer;
    this.page = designer.page;
    this.view = designer.page.getByTestId(name);
  }

  async unfold() {
    await this.view.locator('> summary').click();
  }

  /** Does what asks for a computation, and waits until all of it is there. */
  async computed(action) {
    await this.designer.whileWorkersWait(async () => {
      await action();
      await this.view.and(this.page.locator('[aria-busy="true"]')).waitFor();
    });
    await this.done();
  }

  async done() {
    await this.view.and(this.page.locator('[aria-busy="false"]')).waitFor({ timeout: 50_000 });
  }

  /** The slider that says which variant is read, and what is read of it. */
  get cursor() {
    return this.view.getByRole('slider', { name: 'Variant that is read' });
  }

  reading() {
    return this.view.getByTestId('reading').textContent();
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
  await study.computed(() => study.unfold());
  const text = await study.view.textContent();
  assert.match(text, /Best with \d+ runs|No number of runs/);
  const rows = await study.rows();
  const efficiency = rows.find(([name]) => name.startsWith('Efficiency'));
  assert.match(rows[0][0], /^All three/);
  assert.equal(efficiency.length, 11);
  const figures = efficiency.slice(1).map(Number.parseFloat);
  figures.slice(1).forEach((figure, index) => assert.ok(figures[index] < figure, 'more runs keep more'));
});

test('a compared number of runs is read, taken and given back', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'compare');
  await study.computed(() => study.unfold());
  const pictures = study.view.getByRole('img');
  assert.equal(await pictures.count(), 2);
  assert.match(await pictures.first().getAttribute('aria-label'), /^Heat that stays over runs: from [0-9.]+ %/);
  // By keys.
  await study.cursor.focus();
  await study.cursor.press('Home');
  assert.match(await study.reading(), /^Runs 1: /);
  await study.cursor.press('ArrowRight');
  await study.cursor.press('ArrowRight');
  assert.match(await study.reading(), /^Runs 3: [0-9.]+ % of the heat stays, /);
  assert.match(await study.cursor.getAttribute('aria-valuetext'), /^Runs 3: /);
  // By pointer, in the other picture.
  await pictures.nth(1).locator('[data-stop="3"]').hover();
  assert.match(await study.reading(), /^Runs 4: /);
  const runs = designer.entry('Runs');
  const before = await runs.inputValue();
  await study.view.getByRole('button', { name: 'Take it' }).click();
  assert.equal(await runs.inputValue(), '4');
  await designer.button('Undo').click();
  assert.equal(await runs.inputValue(), before);
});

test('what is compared after fast changes is that of the last', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'compare');
  await study.computed(() => study.unfold());
  await designer.drag('Run length', 1, 1.2, 1.4);
  await designer.drag('Run length', 1.6, 1.1);
  await study.computed(() => designer.drag('Run length', 1.3, 1.5));
  const after = await study.rows();
  await designer.page.reload();
  assert.equal(await designer.entry('Run length').inputValue(), '1.5');
  await study.computed(() => study.unfold());
  assert.deepEqual(await study.rows(), after);
});

test('an input is tried over its range, two as a map', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'sweep');
  await study.unfold();
  await study.computed(() => study.view.locator('select').first().selectOption({ label: 'Run length' }));
  assert.equal((await study.rows())[0].length, 10);
  assert.equal(await study.view.getByRole('img').count(), 2);
  await study.computed(() => study.view.locator('select').nth(1).selectOption({ label: 'Runs' }));
  const map = study.view.getByRole('img');
  assert.match(await map.getAttribute('aria-label'), /^\d+ of \d+ pairs answer yes three times/);
  const fields = map.locator('[data-stop]');
  const first = await fields.count();
  assert.equal(first, (await study.rows()).length * ((await study.rows())[0].length - 1));
  // Down by a row, and by one to the right.
  await study.cursor.focus();
  await study.cursor.press('Home');
  const [, length] = /^Run length ([0-9.]+) m, Runs/.exec(await study.reading());
  await study.cursor.press('ArrowDown');
  const [, shorter] = /^Run length ([0-9.]+) m, Runs/.exec(await study.reading());
  assert.ok(Number(shorter) < Number(length));
  await study.cursor.press('ArrowRight');
  assert.match(await study.reading(), new RegExp(`^Run length ${shorter} m, Runs 2`));
});

test('a design is pinned, compared with what it becomes, and kept with it', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'pinned');
  await study.unfold();
  await study.computed(() => study.view.getByRole('button', { name: 'Pin this design' }).click());
  await type(study.view.getByRole('textbox', { name: 'Name of pinned design 1' }), 'As it was');
  await study.view.getByRole('textbox', { name: 'Name of pinned design 1' }).press('Enter');
  await study.computed(() => designer.entry('Run length').fill('1.5'));
  await designer.entry('Run length').press('Enter');
  const rows = await study.rows();
  assert.ok(rows.some(([name]) => name === 'Run length'), 'what differs is told');
  assert.ok(!rows.some(([name]) => name === 'Charge'), 'what is the same is not');
  assert.ok(rows.some((cells) => /\([+\u2212][0-9.]+\)/.test(cells[2])), 'with the difference');
  assert.equal(await study.view.getByRole('img').count(), 2, 'both are drawn');
  // A link carries it only when that is wished.
  const without = new URL(await designer.link()).hash;
  assert.match(without, /^#3\./);
  await study.view.getByRole('checkbox').check();
  await designer.page.waitForFunction(() => globalThis.longsmokeLink.includes('#4.'));
  const { hash } = new URL(await designer.link());
  assert.ok(hash.length < 1500);
  // It is kept on the device, and undone as one step.
  await designer.page.getByText(/^Saved/).waitFor();
  await designer.page.waitForTimeout(700);
  await designer.page.reload();
  await study.unfold();
  const name = study.view.getByRole('textbox', { name: 'Name of pinned design 1' });
  assert.equal(await name.inputValue(), 'As it was');
  await study.view.getByRole('button', { name: 'Take it: As it was' }).click();
  assert.equal(await designer.entry('Run length').inputValue(), '2');
  await designer.button('Undo').click();
  assert.equal(await designer.entry('Run length').inputValue(), '1.5');
  await study.view.getByRole('button', { name: 'Unpin: As it was' }).click();
  assert.equal(await name.count(), 0);
  await designer.button('Undo').click();
  assert.equal(await name.inputValue(), 'As it was');
  // Whoever opens the link has it too.
  await designer.page.goto('about:blank');
  await designer.open(hash);
  await study.unfold();
  assert.equal(await name.inputValue(), 'As it was');
});

test('a suggestion is taken as one step', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'suggest');
  await study.unfold();
  await study.view.getByLabel('Day of the design').check();
  await study.computed(() => study.view.getByRole('button', { name: 'Suggest', exact: true }).click());
  const before = await designer.link();
  assert.match(await study.reading(), /^1: .+ of the heat stays/);
  await study.view.getByRole('button', { name: 'Take it' }).click();
  assert.notEqual(await designer.link(), before);
  await designer.button('Undo').click();
  assert.equal(await designer.link(), before);
});

test('a search can be given up', {}, async (designer) => {
  await designer.open();
  const study = new Study(designer, 'suggest');
  await study.unfold();
  await designer.whileWorkersWait(async () => {
    await study.view.getByRole('button', { name: 'Suggest', exact: true }).click();
    await study.view.getByRole('button', { name: 'Cancel' }).click();
    await study.done();
  });
  assert.equal(await study.view.getByRole('button', { name: 'Cancel' }).isVisible(), false);
});

test('a run is given sizes of its own and is like all others again', {}, async (designer) => {
  await designer.open();
  const card = designer.page.getByTestId('part-card');
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
