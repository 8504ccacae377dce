// Files for other programs, read by readers that are not ours.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import DxfParser from 'dxf-parser';
import { native } from './native.mjs';

/** Files of an example by their names. */
function exported(example, ...options) {
  const folder = mkdtempSync(join(tmpdir(), 'longsmoke-'));
  try {
    native(['export', '-', '-o', folder, ...options], native(['example', example]));
    const file = (name) => [name, readFileSync(join(folder, name), 'utf8')];
    return Object.fromEntries(readdirSync(folder).map(file));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Corners of what stands on a layer, by its outlines. */
function outlines(drawing, layer) {
  return drawing.entities.filter((entity) => entity.layer === layer).map(({ vertices }) => {
    const [x, y] = ['x', 'y'].map((axis) => vertices.map((vertex) => vertex[axis]));
    return [Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y)];
  });
}

test('a DXF file is read with its units, layers and sizes', () => {
  // Heights by hand: 620 mm of firebox, 100 mm under the runs, five runs of 240 mm with four baffles
  // of 64 mm, a cap of 150 mm; 8.2 m to the mouth. Widths: 114 mm of firebox wall, 6 mm of gap, 115 mm
  // of facing left of the firebox; runs of 2 m, 64 mm of core, gap and facing to the right.
  for (const [options, code, millimeters] of [[[], 4, 1], [['--us'], 1, 25.4]]) {
    const { 'drawings.dxf': text } = exported('farmhouse', '--format', 'dxf', ...options);
    const drawing = new DxfParser().parseSync(text);
    assert.equal(drawing.header.$ACADVER, 'AC1009');
    assert.equal(drawing.header.$INSUNITS, code);
    const layers = Object.keys(drawing.tables.layer.layers);
    for (const entity of drawing.entities) assert.ok(layers.includes(entity.layer), entity.layer);
    const [masonry, chimney] = outlines(drawing, 'OUTLINE');
    const near = (found, expected) => found.forEach((length, index) => {
      assert.ok(Math.abs(length * millimeters - expected[index]) < 0.01, `${found} ${expected}`);
    });
    // From the base slab, 114 mm under the floor of the firebox.
    near(masonry, [-235, -114, 2185, 2326]);
    near(chimney.slice(3), [8200]);
    // Every drawing has an outline that is closed, and the section its baffles.
    const closed = drawing.entities.filter(({ type, shape }) => type === 'POLYLINE' && shape);
    assert.ok(closed.length > 30);
    assert.equal(outlines(drawing, 'BAFFLES').length, 4);
    const texts = drawing.entities.filter(({ type }) => type === 'TEXT').map((entity) => entity.text);
    assert.ok(texts.includes(millimeters === 1 ? '2.44 m' : '8\' 1/16"'), texts.join());
  }
});

test('every brick of the table stands in the DXF file, on the layer of its course', () => {
  const files = exported('cabin');
  const rows = files['courses.csv'].trim().split('\r\n').slice(1).map((row) => row.split(','));
  assert.ok(rows.length > 300, `${rows.length} pieces`);
  const drawing = new DxfParser().parseSync(files['courses.dxf']);
  const layers = Object.keys(drawing.tables.layer.layers);
  const blocks = drawing.entities.filter(({ type, shape }) => type === 'POLYLINE' && shape);
  const key = (name, figures) => `${name} ${figures.map((each) => each.toFixed(1)).join(' ')}`;
  const drawn = new Set(blocks.map(({ layer, vertices, thickness }) => {
    assert.ok(layers.includes(layer), layer);
    const [x, y] = ['x', 'y'].map((axis) => vertices.map((at) => at[axis]));
    const [left, front] = [Math.min(...x), Math.min(...y)];
    const sides = [Math.max(...x) - left, Math.max(...y) - front];
    return key(layer.replace(/^COURSE_\d+_/, ''), [left, front, vertices[0].z, ...sides, thickness]);
  }));
  for (const [part, , course, , ...figures] of rows) {
    const place = figures.slice(0, 6).map((meters) => 1000 * Number(meters));
    const name = key(`${part.toUpperCase()}_${course}`, place);
    assert.ok(drawn.has(name), name);
  }
  assert.ok(blocks.length >= rows.length);
});

test('every file of an example is there and is what its name says', () => {
  const files = exported('cabin');
  assert.deepEqual(Object.keys(files).sort(), [
    'compare.csv', 'courses.csv', 'courses.dxf', 'courses.svg', 'day.csv', 'design.json',
    'drawings.dxf', 'front.svg', 'materials.csv', 'path.csv', 'path.svg', 'plan.svg', 'result.json',
    'section.svg', 'sheets.html',
  ]);
  assert.equal(JSON.parse(files['design.json']).name, 'Small cabin, three runs');
  assert.equal(JSON.parse(files['result.json']).heater_result_version, 1);
  assert.equal(files['compare.csv'].trim().split('\r\n').length, 1 + 10);
  // Three runs between firebox and chimney, below their heads.
  assert.equal(files['path.csv'].trim().split('\r\n').length, 1 + 5);
  for (const name of ['section', 'front', 'plan', 'path', 'courses']) {
    assert.match(files[`${name}.svg`], /^<\?xml version="1.0"/);
  }
});
