// Designs that come and go by link, and what stays on the device.
import assert from 'node:assert/strict';
import { crc32, deflateRawSync } from 'node:zlib';
import { test } from './harness.mjs';

const OWN = 'longsmoke.design';
const waitKept = (designer) => designer.figure('kept').filter({ hasText: 'Saved' }).waitFor();

test('a link carries the design and never replaces the own one', {}, async (designer) => {
  await designer.open();
  const length = await designer.entry('Run length').inputValue();
  await designer.entry('Run length').fill('1.05');
  await designer.entry('Run length').press('Enter');
  const fragment = new URL(await designer.link()).hash;
  const margin = await designer.text('margin');
  await designer.button('Undo').click();
  // "Saved" may still be said of the change before.
  await designer.page.waitForFunction(
    (key) => localStorage.getItem(key)?.includes('"run_length_m": 2.0'), OWN,
  );
  const own = await designer.stored(OWN);

  await designer.page.goto('about:blank');
  await designer.open(fragment);
  await designer.page.getByText('Opened from a link').waitFor();
  assert.equal(await designer.entry('Run length').inputValue(), '1.05');
  assert.equal(await designer.text('margin'), margin);
  assert.equal(new URL(designer.page.url()).hash, '', 'the address is clean');

  await designer.entry('Run length').fill('1.1');
  await designer.entry('Run length').press('Enter');
  await waitKept(designer);
  assert.equal(await designer.stored(OWN), own, 'the own design is untouched');

  await designer.page.reload();
  assert.equal(await designer.entry('Run length').inputValue(), '1.1');
  await designer.button('Back to my design').click();
  assert.equal(await designer.entry('Run length').inputValue(), length);
  assert.equal(await designer.stored(OWN), own);
});

test('a linked design can be kept as the own one', {}, async (designer) => {
  await designer.open();
  await designer.entry('Run length').fill('1.05');
  const fragment = new URL(await designer.link()).hash;
  await designer.entry('Run length').press('Escape');

  // Into the address bar of the open page.
  await designer.page.evaluate((hash) => { location.hash = hash; }, fragment);
  await designer.button('Keep this as mine').click();
  assert.equal(await designer.page.getByText('Opened from a link').isVisible(), false);
  await designer.page.reload();
  assert.equal(await designer.entry('Run length').inputValue(), '1.05');
});

for (const [kind, change, message] of [
  ['damaged', (hash) => hash.slice(0, -4), /damaged/],
  ['newer', (hash) => hash.replace(/^#\d+\./, '#99.'), /newer version/],
]) {
  test(`a ${kind} link is said so and changes nothing`, {}, async (designer) => {
    await designer.open();
    const margin = await designer.text('margin');
    const fragment = change(new URL(await designer.link()).hash);
    await designer.page.goto('about:blank');
    await designer.open(fragment);
    await designer.page.getByText(message).waitFor();
    assert.equal(await designer.text('margin'), margin);
    await designer.button('Close').click();
    assert.equal(await designer.page.getByText(message).count(), 0);
  });
}

/** A text as a link: packed, with the checksum that `src/design/link.rs` asks for. */
function linked(text, version = '3') {
  const packed = deflateRawSync(text, { level: 9 });
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(Buffer.concat([Buffer.from(version), packed])));
  return `#${version}.${Buffer.concat([packed, sum]).toString('base64url')}`;
}

test('what a link unpacks to is read up to its limit', {}, async (designer) => {
  const padded = (size) => linked(JSON.stringify({ n: 'Padded' }).padEnd(size));
  await designer.open(padded(200_000));
  await designer.page.waitForFunction(() => document.title.startsWith('Padded'));
  // A few kilobytes that would be ten megabytes.
  const bomb = padded(10_000_000);
  assert.ok(bomb.length < 16_000, `${bomb.length} bytes`);
  await designer.page.evaluate((hash) => { location.hash = hash; }, bomb);
  await designer.page.getByText(/damaged/).waitFor();
  assert.match(await designer.page.title(), /^Padded/);
});

test('what a link holds is opened only if it could be kept', {}, async (designer) => {
  await designer.open();
  const long = '\u0001'.repeat(45);
  const notes = Object.fromEntries(Array.from({ length: 400 }, (_, count) => [`${count}${long}`, long]));
  // Pinned designs have the same notes, which are 200 kB in a file for each.
  const much = linked(JSON.stringify({ n: 'Much', no: notes, pd: [{}, {}, {}, {}] }), '4');
  assert.ok(much.length < 16_000, `${much.length} bytes`);
  await designer.page.evaluate((hash) => { location.hash = hash; }, much);
  await designer.page.getByText('This link holds too much').waitFor();
  assert.doesNotMatch(await designer.page.title(), /^Much/);
});

test('a link that could not be opened is not given', {}, async (designer) => {
  await designer.open();
  // 35 000 random letters and digits, of 5.2 bits each at the least: 23 kB packed, 30 kB as a link.
  const random = () => Array.from({ length: 4 }, () => Math.random().toString(36).slice(2, 13)).join('');
  const notes = Object.fromEntries(Array.from({ length: 400 }, () => [random(), random()]));
  const file = JSON.stringify({ heater_design_version: 1, name: 'Noted', notes });
  await designer.page.getByLabel('Open file').setInputFiles({
    name: 'design.json', mimeType: 'application/json', buffer: Buffer.from(file),
  });
  await designer.page.waitForFunction(() => document.title.startsWith('Noted'));
  await designer.button('Copy link').click();
  await designer.page.getByText('holds too much for a link').waitFor();
  assert.equal(await designer.link(), '');
});

test('the design is kept on the device, the one before too', {}, async (designer) => {
  await designer.open();
  await designer.page.getByLabel('Name of the design').fill('Mill house');
  await waitKept(designer);
  assert.equal(JSON.parse(await designer.stored(OWN)).name, 'Mill house');
  await designer.page.reload();
  await designer.page.waitForFunction(() => document.title.startsWith('Mill house'));
});

test('a stored design that cannot be read is set aside', {}, async (designer) => {
  await designer.storeBefore('longsmoke.design', '{ broken');
  await designer.open();
  await designer.page.getByText('cannot be read').waitFor();
  assert.equal(await designer.stored('longsmoke.design.unreadable'), '{ broken');
});

test('the link can be copied', {
  context: { permissions: ['clipboard-read', 'clipboard-write'] },
}, async (designer) => {
  await designer.open();
  await designer.button('Copy link').click();
  await designer.button('Link copied').waitFor();
  const copied = await designer.page.evaluate(() => navigator.clipboard.readText());
  assert.equal(copied, await designer.link());
  await designer.drag('Run length', 1.2);
  await designer.button('Copy link').waitFor();
});

test('without a clipboard the link is shown', {}, async (designer) => {
  await designer.page.addInitScript(() => {
    Object.defineProperty(navigator, 'clipboard', { value: undefined });
  });
  await designer.open();
  await designer.button('Copy link').click();
  const byHand = designer.page.getByLabel('Copy this link');
  // It is there from the start, hidden and empty.
  await byHand.waitFor();
  assert.equal(await byHand.inputValue(), await designer.link());
});

test('a file goes out and comes in', {
  onlyInChromium: 'Firefox tells the driver nothing of a download',
}, async (designer) => {
  await designer.open();
  await designer.entry('Run length').fill('1.05');
  const [download] = await Promise.all([
    designer.page.waitForEvent('download'),
    designer.button('Save file').click(),
  ]);
  assert.equal(download.suggestedFilename(), 'north-farmhouse.json');
  const file = await download.path();
  await designer.drag('Run length', 1.5);
  await designer.page.getByLabel('Open file').setInputFiles(file);
  await designer.page.waitForFunction(
    () => document.getElementById('field-path-run-length-m').value === '1.05',
  );
  await designer.button('Undo').click();
  assert.equal(await designer.entry('Run length').inputValue(), '1.5');
});
