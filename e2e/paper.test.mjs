// What the page prints and saves.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import jsQR from 'jsqr';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { test } from './harness.mjs';

const EXAMPLES = [
  'North farmhouse',
  'Small cabin, three runs',
  'Heated bench',
  'Tall stack that does not draw',
  'Heavy, faced with stone',
  'Tight house with a fan',
];
const TITLES = ['The heater in section', 'Front and plan', 'The smoke path', 'Findings', 'Firing card for the wall', 'Every decision'];

/** Presses the button and waits for the sheets; the printer's window stays away. */
async function print(designer) {
  const { page } = designer;
  await page.evaluate(() => { globalThis.print = () => {}; });
  await designer.button('Print').click();
  await page.locator('.paper').waitFor({ state: 'attached', timeout: 30_000 });
}

/** Text of each page of a print. */
async function printed(page, format) {
  const bytes = await page.pdf({ format, printBackground: true });
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const pages = [];
  let size;
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const sheet = await pdf.getPage(number);
    const { items } = await sheet.getTextContent();
    pages.push(items.map(({ str, hasEOL }) => str + (hasEOL ? '\n' : '')).join(''));
    size = sheet.view.slice(2);
  }
  return { pages, size };
}

/** What a code on the page says. */
async function coded(page) {
  await page.emulateMedia({ media: 'print' });
  const picture = await page.locator('.paper .p-qr').screenshot();
  const { data, width, height } = await page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const { width, height } = image;
    const canvas = Object.assign(document.createElement('canvas'), { width, height });
    const pen = canvas.getContext('2d');
    pen.drawImage(image, 0, 0);
    return { data: [...pen.getImageData(0, 0, width, height).data], width, height };
  }, picture.toString('base64'));
  await page.emulateMedia({ media: null });
  return jsQR(new Uint8ClampedArray(data), width, height)?.data;
}

const PRINTS = { onlyInChromium: 'Firefox gives the driver no printed page' };
const SAVES = { onlyInChromium: 'Firefox tells the driver nothing of a download' };

for (const example of EXAMPLES) {
  test(`the sheets of ${example} are printed whole`, {
    ...PRINTS,
    // As near as a phone is held to the paper.
    context: { deviceScaleFactor: 4 },
  }, async (designer) => {
    const { page } = designer;
    await designer.open();
    if (example !== EXAMPLES[0]) {
      await designer.button('Designs').click();
      await designer.button(`Open: ${example}`).click();
      await page.waitForFunction((name) => document.title.startsWith(name), example);
    }
    const link = await designer.link();
    await print(designer);
    assert.equal(await coded(page), link);
    assert.equal(await page.locator('.paper').isVisible(), false, 'only the printer sees it');
    const { pages, size } = await printed(page, 'A4');
    // Points: 210 by 297 mm are 595.3 by 841.9.
    size.forEach((side, index) => assert.ok(Math.abs(side - [595.3, 841.9][index]) < 1.5, size.join()));
    assert.ok(pages.length >= 10 && pages.length <= 40, `${pages.length} pages`);
    pages.forEach((text, index) => {
      assert.ok(text.includes(`Page ${index + 1} of ${pages.length}`), text);
      assert.ok(text.includes('A design aid, not a permit.'));
      assert.ok(text.includes(example), 'the name stands on every page');
      assert.ok(text.split(/\s+/).length > 30, `page ${index + 1} is all but empty: ${text}`);
    });
    for (const title of TITLES) {
      assert.equal(pages.filter((text) => text.includes(`\n${title}\n`)).length >= 1, true, title);
    }
    assert.match(pages[0], /Will it draw\?/);
    // After the print the page is itself again, and the next print is of the design as it is then.
    assert.equal(await page.locator('.paper').count(), 0);
  });
}

test('sheets fit Letter and follow the units', PRINTS, async (designer) => {
  await designer.open();
  await designer.button('US').click();
  await print(designer);
  const { pages, size } = await printed(designer.page, 'Letter');
  assert.deepEqual(size, [612, 792]);
  assert.match(pages[1], /in to a foot/);
  assert.match(pages.join('\n'), /°F/);
  assert.doesNotMatch(pages.slice(1, 4).join('\n'), /°C/);
});

/** Saves a file by the menu. */
async function saved(designer, entry) {
  const { page } = designer;
  await designer.button('Save as').click();
  const download = page.waitForEvent('download', { timeout: 30_000 });
  await designer.button(entry).click();
  const file = await download;
  return { name: file.suggestedFilename(), bytes: await readFile(await file.path()) };
}

test('the menu saves what each entry says', SAVES, async (designer) => {
  await designer.open();
  const text = async (entry, name, pattern) => {
    const file = await saved(designer, entry);
    assert.equal(file.name, name);
    assert.match(file.bytes.toString(), pattern);
  };
  await text('Sheets, A4 · html', 'north-farmhouse-sheets.html', /^<!DOCTYPE html>[^]*size: A4/);
  await text('Sheets, Letter · html', 'north-farmhouse-sheets.html', /size: letter/);
  await text('Section, to scale · svg', 'north-farmhouse-section.svg', /<svg [^>]*width="[\d.]+mm"/);
  await text('Drawings for CAD · dxf', 'north-farmhouse.dxf', /AC1009[^]*EOF/);
  await text('Course plans · svg', 'north-farmhouse-courses.svg', /<svg [^>]*width="[\d.]+mm"/);
  await text('Every brick · dxf', 'north-farmhouse-courses.dxf', /COURSE_001_FIREBOX_1[^]*EOF/);
  await text('Every brick · csv', 'north-farmhouse-courses.csv', /^part,body,course,piece/);
  await text('The smoke path · csv', 'north-farmhouse-path.csv', /^Part,Length \(m\)/);
  await text('The day · csv', 'north-farmhouse-day.csv', /^Day,Hour,Fire \(kW\)/);
  await text('Materials · csv', 'north-farmhouse-materials.csv', /Brick|brick/);
  await text('One to ten runs · csv', 'north-farmhouse-compare.csv', /^Runs,/);
  await text('All figures · json', 'north-farmhouse-result.json', /^\{"heater_result_version":1/);
  const picture = await saved(designer, 'Section, to scale · png');
  assert.equal(picture.name, 'north-farmhouse-section.png');
  assert.deepEqual([...picture.bytes.subarray(1, 4)], [...Buffer.from('PNG')]);
  // 300 pixels to an inch of a drawing that is wider than a hand.
  assert.ok(picture.bytes.readUInt32BE(16) > 1500);
});

test('the menu shuts when one turns to something else', SAVES, async (designer) => {
  await designer.open();
  const { page } = designer;
  const menu = designer.button('Save as');
  const entry = designer.button('Sheets, A4 · html');
  const isOpen = () => entry.isVisible();
  const focused = (locator) => locator.evaluate((element) => element === document.activeElement);

  await menu.press('Enter');
  assert.ok(await isOpen());
  await page.keyboard.press('Tab');
  assert.ok(await focused(entry), 'the first entry comes next');
  await page.keyboard.press('Escape');
  assert.equal(await isOpen(), false, 'Escape shuts it');
  assert.ok(await focused(menu), 'and leads back to its button');

  await menu.press('Enter');
  await page.keyboard.press('Shift+Tab');
  assert.equal(await isOpen(), false, 'keys that lead out of it shut it');

  await menu.click();
  await page.getByRole('heading', { name: 'Decisions' }).click();
  assert.equal(await isOpen(), false, 'a press elsewhere shuts it');

  await menu.click();
  const download = page.waitForEvent('download', { timeout: 30_000 });
  await entry.click();
  assert.equal(await isOpen(), false, 'a choice shuts it');
  assert.ok(await focused(menu));
  await download;
});
