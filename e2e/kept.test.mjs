// Designs are never lost silently: links, reloads, other tabs, broken storage.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { DesignerPage } from './page.mjs';
import { test } from './harness.mjs';

const OWN = 'longsmoke.design';
const waitKept = (designer) => designer.figure('kept').filter({ hasText: 'Saved' }).waitFor();
const enter = async (designer, length) => {
  await designer.entry('Run length').fill(length);
  await designer.entry('Run length').press('Enter');
};
const length = (designer) => designer.entry('Run length').inputValue();
/** A link to the example with runs of 1.05 m, and the page with an own design of 1.5 m. */
async function prepare(designer) {
  await designer.open();
  await enter(designer, '1.05');
  const fragment = new URL(await designer.link()).hash;
  await enter(designer, '1.5');
  await waitKept(designer);
  await designer.page.goto('about:blank');
  return fragment;
}
const openFile = (designer, text) => designer.page.getByLabel('Open file').setInputFiles({
  name: 'design.json', mimeType: 'application/json', buffer: Buffer.from(text),
});

test('a link that was only opened survives a reload', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  assert.equal(new URL(designer.page.url()).hash, '');
  await designer.page.reload();
  await designer.page.getByText('Your own design is kept on this device').waitFor();
  assert.equal(await length(designer), '1.05');
  await designer.button('Back to my design').click();
  assert.equal(await length(designer), '1.5');
});

test('each tab keeps its own link', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  const other = new DesignerPage(await designer.page.context().newPage(), designer.url);
  await other.open();
  assert.equal(await length(other), '1.5');
  await enter(other, '1.7');
  const another = new URL(await other.link()).hash;
  await other.page.goto('about:blank');
  await other.open(another);
  await designer.page.reload();
  assert.equal(await length(designer), '1.05');
});

test('who has no design yet is not told that it is kept', {}, async (designer) => {
  await designer.open();
  const fragment = new URL(await designer.link()).hash;
  await designer.page.goto('about:blank');
  await designer.open(fragment);
  await designer.page.getByText('Opened from a link.').waitFor();
  assert.equal(await designer.page.getByText('Your own design').isVisible(), false);
  await designer.button('To the example').waitFor();
});

test('keeping a linked design loses nothing', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  await designer.button('Keep this as mine').click();
  await designer.page.getByText('is kept beside this one').waitFor();
  await designer.button('Undo').click();
  assert.equal(await length(designer), '1.5', 'a step back');
  await designer.button('Redo').click();
  assert.equal(await length(designer), '1.05');
  await waitKept(designer);

  await designer.page.reload();
  assert.equal(await length(designer), '1.05');
  await designer.button('Bring it back').click();
  assert.equal(await length(designer), '1.5', 'after a reload');
  await designer.button('Undo').click();
  assert.equal(await length(designer), '1.05');
});

/** Names and run lengths of the copies on the device. */
const copies = async (designer) => {
  const text = await designer.stored('longsmoke.shelf');
  return (text ?? '').split('\u001e').filter(Boolean).map((copy) => {
    const [name, file] = copy.split('\u001f');
    return [name, JSON.parse(file).path.run_length_m];
  });
};
const LINKED = 'North farmhouse (from a link)';

test('what was made of a linked design is put on the shelf before one goes back', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  await enter(designer, '1.44');
  await designer.figure('kept').filter({ hasText: 'Saved in this tab' }).waitFor();
  await designer.button('Back to my design').click();
  await designer.page.getByText(`kept as a copy, under Designs: ${LINKED}`).waitFor();
  assert.equal(await length(designer), '1.5');
  await designer.button('Designs').click();
  await designer.button(`Open: ${LINKED}`).click();
  assert.equal(await length(designer), '1.44');
});

test('a linked design that was only looked at leaves no copy', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  await enter(designer, '1.44');
  await designer.button('Undo').click();
  await designer.button('Back to my design').click();
  assert.equal(await length(designer), '1.5');
  assert.deepEqual(await copies(designer), []);
});

test('what was made of a linked design is put on the shelf before another link', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open();
  await enter(designer, '1.2');
  const second = new URL(await designer.link()).hash;
  await designer.page.goto('about:blank');
  await designer.open(fragment);
  await enter(designer, '1.44');
  // At once, before it was kept in the tab.
  await designer.page.goto('about:blank');
  await designer.open(second);
  await designer.page.getByText(`under Designs: ${LINKED}`).waitFor();
  assert.equal(await length(designer), '1.2');
  assert.deepEqual(await copies(designer), [[LINKED, 1.44]]);

  // Another one into the address bar of the open page.
  await enter(designer, '1.33');
  await designer.page.evaluate((hash) => { location.hash = hash; }, fragment);
  await designer.page.getByText(`under Designs: ${LINKED} 2`).waitFor();
  assert.equal(await length(designer), '1.05');
  assert.deepEqual(await copies(designer), [[`${LINKED} 2`, 1.33], [LINKED, 1.44]]);
});

test('what was made of a linked design outlives its tab', {}, async (designer) => {
  const fragment = await prepare(designer);
  const tab = new DesignerPage(await designer.page.context().newPage(), designer.url);
  await tab.open(fragment);
  await enter(tab, '1.44');
  // The tab goes on after a reload, and what it makes then takes the place of its own copy.
  await tab.page.reload();
  await tab.page.locator('.pictures').waitFor();
  assert.equal(await tab.page.getByText('under Designs').isVisible(), false);
  await enter(tab, '1.46');
  await Promise.all([tab.page.waitForEvent('close'), tab.page.close({ runBeforeUnload: true })]);

  await designer.open();
  await designer.page.getByText(`under Designs: ${LINKED}`).waitFor();
  assert.deepEqual(await copies(designer), [[LINKED, 1.46]]);
  await designer.button('Close').click();
  await designer.page.reload();
  await designer.page.locator('.pictures').waitFor();
  assert.equal(await designer.page.getByText('under Designs').isVisible(), false);
});

test('without room for what was made of a linked design it stays open', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  await enter(designer, '1.44');
  await designer.page.evaluate(() => {
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  });
  await designer.button('Back to my design').click();
  await designer.page.getByText('no room to keep what you made').waitFor();
  assert.equal(await length(designer), '1.44');
  await designer.button('Back to my design').click();
  assert.equal(await length(designer), '1.5', 'after it was said');
});

test('the own design that was replaced first is on the shelf once another is', {}, async (designer) => {
  const fragment = await prepare(designer);
  for (const expected of ['', 'The one that was kept until now is a copy, under Designs: North farmhouse (from before).']) {
    await designer.open(fragment);
    await designer.button('Keep this as mine').click();
    const said = designer.page.getByRole('alert').filter({ hasText: 'is kept beside this one' });
    await said.filter({ hasText: expected }).waitFor();
    await enter(designer, '1.6');
    await designer.page.waitForFunction(
      (own) => JSON.parse(localStorage.getItem(own)).path.run_length_m === 1.6, OWN,
    );
    await designer.page.goto('about:blank');
  }
  await designer.open();
  assert.deepEqual(await copies(designer), [['North farmhouse (from before)', 1.5]]);
  await designer.button('Bring it back').click();
  assert.equal(await length(designer), '1.6', 'the one that was replaced last');
});

test('without room for the own design a linked one does not take its place', {}, async (designer) => {
  const fragment = await prepare(designer);
  await designer.open(fragment);
  const own = await designer.stored(OWN);
  await designer.page.evaluate(() => {
    const set = Storage.prototype.setItem;
    globalThis.makeRoom = () => { Storage.prototype.setItem = set; };
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  });
  await designer.button('Keep this as mine').click();
  await designer.page.getByText('no room to keep your own design').waitFor();
  assert.equal(await designer.page.getByText('is kept beside this one').isVisible(), false);
  assert.equal(await designer.stored(OWN), own);
  await designer.page.evaluate(() => globalThis.makeRoom());
  await designer.button('Keep this as mine').click();
  await designer.page.getByText('is kept beside this one').waitFor();
  assert.equal(await length(designer), '1.05');
});

test('what cannot be brought back stays until its message is closed', {}, async (designer) => {
  const REPLACED = 'longsmoke.design.replaced';
  await designer.open();
  await designer.page.evaluate((key) => localStorage.setItem(key, '{ broken'), REPLACED);
  await designer.page.reload();
  await designer.button('Bring it back').click();
  await designer.page.getByText('cannot be read').waitFor();
  await designer.button('Save its text').waitFor();
  assert.equal(await designer.stored(REPLACED), '{ broken');
  await designer.button('Close').click();
  assert.equal(await designer.stored(REPLACED), null);
});

test('what another tab has kept and this one cannot read is not overwritten', {}, async (designer) => {
  await prepare(designer);
  await designer.open();
  const other = new DesignerPage(await designer.page.context().newPage(), designer.url);
  await other.visit();
  await other.page.evaluate((own) => localStorage.setItem(own, '{ broken'), OWN);
  await designer.page.getByText('Another tab has saved').waitFor();
  await designer.button('Take that one').click();
  await designer.page.getByText('cannot be read').waitFor();
  await designer.button('Close').click();
  await enter(designer, '1.8');
  await designer.page.waitForTimeout(700);
  assert.equal(await designer.stored(OWN), '{ broken');
  await designer.button('Keep the one here').click();
  await waitKept(designer);
  assert.equal(JSON.parse(await designer.stored(OWN)).path.run_length_m, 1.8);
  assert.equal(await designer.stored(`${OWN}.before`), '{ broken');
});

test('what could not be read again is never taken in nor called saved', {}, async (designer) => {
  await designer.open();
  const before = await length(designer);
  const file = (count) => JSON.stringify({
    heater_design_version: 1, name: 'Much', x: Array(count).fill(1),
  });
  // 120 kB as it is, 424 kB with a line for each.
  await openFile(designer, file(60_000));
  await designer.page.getByText('This file holds too much').waitFor();
  assert.equal(await length(designer), before);

  // A one takes seven letters as we write it. The design itself fits beside them, four pinned ones not.
  const room = 256 * 1024 - 9_000;
  await openFile(designer, file(Math.floor(room / 7)));
  await waitKept(designer);
  await designer.page.waitForFunction(
    (own) => JSON.parse(localStorage.getItem(own)).name === 'Much', OWN,
  );
  const kept = await designer.stored(OWN);
  await designer.page.getByTestId('pinned').locator('summary').first().click();
  for (let pinned = 0; pinned < 4; pinned += 1) await designer.button('Pin this design').click();
  await designer.figure('kept').filter({ hasText: 'Not saved: this design holds more' }).waitFor();
  await designer.button('Save file').click();
  await designer.page.getByRole('alert').filter({ hasText: 'Not saved' }).waitFor();
  assert.ok((await designer.stored(OWN)).length <= 256 * 1024);
  await designer.page.reload();
  await designer.page.waitForFunction(() => document.title.startsWith('Much'));
  assert.ok(kept.length > 240_000);
});

test('two tabs do not overwrite each other', {}, async (designer) => {
  await prepare(designer);
  await designer.open();
  const other = new DesignerPage(await designer.page.context().newPage(), designer.url);
  await other.open();
  await enter(other, '1.7');
  await waitKept(other);

  await designer.page.getByText('Another tab has saved').waitFor();
  await enter(designer, '1.8');
  await designer.page.waitForTimeout(700);
  assert.equal(JSON.parse(await designer.stored(OWN)).path.run_length_m, 1.7, 'held back');
  await designer.button('Take that one').click();
  assert.equal(await length(designer), '1.7');
  await designer.button('Undo').click();
  assert.equal(await length(designer), '1.8', 'a step back');

  await waitKept(designer);
  await other.page.getByText('Another tab has saved').waitFor();
  await other.button('Keep the one here').click();
  await designer.page.getByText('Another tab has saved').waitFor();
  assert.equal(JSON.parse(await other.stored(OWN)).path.run_length_m, 1.7);

  // Nobody chose here: what was here is found by the next visit.
  await designer.page.reload();
  assert.equal(await length(designer), '1.7');
  await designer.button('Bring it back').click();
  assert.equal(await length(designer), '1.8');
});

test('the generation before takes the place of one that cannot be read', {
  onlyInChromium: 'Firefox tells the driver nothing of a download',
}, async (designer) => {
  await designer.open();
  await enter(designer, '1.05');
  await waitKept(designer);
  await enter(designer, '1.5');
  await designer.page.waitForFunction((own) => localStorage.getItem(`${own}.before`), OWN);
  await designer.page.evaluate((own) => localStorage.setItem(own, '{ broken'), OWN);
  await designer.page.reload();
  await designer.page.getByText('the one that was saved before it').waitFor();
  assert.equal(await length(designer), '1.05');
  const [download] = await Promise.all([
    designer.page.waitForEvent('download'),
    designer.button('Save its text').click(),
  ]);
  assert.equal(await readFile(await download.path(), 'utf8'), '{ broken');

  // Still there for the next visit, until one is done with it.
  await enter(designer, '1.6');
  await waitKept(designer);
  await designer.page.reload();
  await designer.page.getByText('cannot be read').waitFor();
  assert.equal(await length(designer), '1.6');
  await designer.button('Close').click();
  await designer.page.reload();
  await designer.page.locator('#shell').waitFor({ state: 'detached' });
  assert.equal(await designer.page.getByText('cannot be read').isVisible(), false);
});

test('a text that cannot be set aside is said so', {}, async (designer) => {
  await designer.storeBefore('longsmoke.design', '{ broken');
  await designer.page.addInitScript(() => {
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  });
  await designer.open();
  await designer.page.getByText('no room to set its text aside').waitFor();
  await enter(designer, '1.6');
  await designer.page.getByText('keeps nothing for this page').waitFor();
  assert.equal(await designer.stored(OWN), '{ broken');
});

test('a file says how much it left out, and undo brings back what it replaced', {
  onlyInChromium: 'Firefox tells the driver nothing of a download',
}, async (designer) => {
  await designer.open();
  const file = { heater_design_version: 1, fire: { charge_kg: 9 }, note: 'ours' };
  await openFile(designer, JSON.stringify(file));
  await designer.page.getByText(/^\d+ inputs were not in the file/).waitFor();
  await openFile(designer, JSON.stringify({ ...file, note: 'another' }));
  await designer.button('Undo').click();
  const [download] = await Promise.all([
    designer.page.waitForEvent('download'),
    designer.button('Save file').click(),
  ]);
  assert.equal(JSON.parse(await readFile(await download.path(), 'utf8')).note, 'ours');

  await openFile(designer, await readFile(await download.path(), 'utf8'));
  await designer.page.getByText('not in the file').waitFor({ state: 'hidden' });
});

test('a file that cannot be saved is said so', {}, async (designer) => {
  await designer.open();
  await designer.page.evaluate(() => { URL.createObjectURL = () => { throw new Error('no'); }; });
  await designer.button('Save file').click();
  await designer.page.getByText('did not save the file').waitFor();
});

/** Drops files on the page as a desktop does. */
const drop = (designer, text) => designer.page.evaluate((content) => {
  const carried = new DataTransfer();
  carried.items.add(new File([content], 'design.json', { type: 'application/json' }));
  for (const type of ['dragover', 'drop']) {
    document.body.dispatchEvent(new DragEvent(type, {
      bubbles: true, cancelable: true, dataTransfer: carried,
    }));
  }
}, text);

test('a file that is dropped on the page is opened as one step', {}, async (designer) => {
  await designer.open();
  const before = await length(designer);
  await enter(designer, '1.05');
  await waitKept(designer);
  const text = await designer.stored(OWN);
  await designer.button('Undo').click();
  await drop(designer, text);
  await designer.page.locator('.bar button:enabled', { hasText: 'Undo' }).waitFor();
  assert.equal(await length(designer), '1.05');
  await designer.button('Undo').click();
  assert.equal(await length(designer), before);
  await drop(designer, '{"not":"a design"');
  await designer.page.getByText('Your design is as it was.').waitFor();
  assert.equal(await length(designer), before);
});
