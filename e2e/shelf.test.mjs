// Designs to begin with, copies on the device, and erasing all of it.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const SHELF = 'longsmoke.shelf';

/** The shelf as a person uses it. */
class Shelf {
  constructor(designer) {
    this.designer = designer;
    this.page = designer.page;
    this.switch = designer.button('Designs');
    this.name = this.page.getByLabel('Name of the design');
  }

  async open() {
    await this.switch.click();
    await this.page.getByRole('heading', { name: 'Designs to begin with' }).waitFor();
  }

  keep() {
    return this.designer.button('Keep a copy of this design').click();
  }

  copies() {
    return this.page.getByRole('button', { name: /^Remove: / });
  }
}

test('a design to begin with opens as one step', {}, async (designer) => {
  await designer.open();
  const shelf = new Shelf(designer);
  const mine = await shelf.name.inputValue();
  await shelf.open();
  await designer.button('Open: Small cabin, three runs').click();
  assert.equal(await shelf.name.inputValue(), 'Small cabin, three runs');
  assert.equal(await designer.entry('Runs').inputValue(), '3');
  assert.equal(await shelf.switch.getAttribute('aria-expanded'), 'false', 'the shelf is put away');
  assert.ok(await shelf.switch.evaluate((button) => button === document.activeElement), 'focus is not lost');
  await designer.button('Undo').click();
  assert.equal(await shelf.name.inputValue(), mine);
});

test('copies are kept under their names and come back after a reload', {}, async (designer) => {
  await designer.open();
  const shelf = new Shelf(designer);
  await shelf.open();
  await shelf.keep();
  await shelf.name.fill('Mill "<b>house</b>"');
  await designer.entry('Run length').fill('1.5');
  await designer.entry('Run length').press('Enter');
  await shelf.keep();
  // Kept once more, it takes the place of the one of its name.
  await shelf.keep();
  assert.equal(await shelf.copies().count(), 2);
  await designer.page.reload();
  await shelf.open();
  assert.equal(await shelf.copies().count(), 2);
  await designer.page.getByRole('button', { name: 'Open: North farmhouse' }).first().click();
  assert.equal(await designer.entry('Run length').inputValue(), '2');
  await shelf.open();
  await designer.button('Open: Mill "<b>house</b>"').click();
  assert.equal(await designer.entry('Run length').inputValue(), '1.5');
  await shelf.open();
  await designer.button('Remove: Mill "<b>house</b>"').click();
  assert.equal(await shelf.copies().count(), 1);
});

test('everything is erased after a second press', {}, async (designer) => {
  await designer.open();
  const shelf = new Shelf(designer);
  await shelf.open();
  await shelf.keep();
  await designer.button('US').click();
  assert.ok(await designer.stored(SHELF));
  await designer.button('Erase everything on this device').click();
  assert.ok(await designer.stored(SHELF), 'not at the first press');
  await designer.page.getByRole('button', { name: /press again/ }).click();
  const left = await designer.page.evaluate(() => Object.keys(localStorage));
  assert.deepEqual(left, []);
});

test('a device without room says so and loses nothing', {}, async (designer) => {
  await designer.open();
  const shelf = new Shelf(designer);
  await shelf.open();
  await shelf.keep();
  await designer.page.evaluate(() => {
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  });
  await shelf.name.fill('Another');
  await shelf.keep();
  assert.match(await designer.text('shelf-state'), /no room/);
  assert.equal(await shelf.copies().count(), 1);
});
