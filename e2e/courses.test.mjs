// Courses on the page: what is laid, one plan after the other, ticked off on this device.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const state = (section) => section.getByRole('slider', { name: 'Course' });

/** Opens the plans of the courses. */
async function open(designer) {
  const section = designer.page.getByTestId('course-plan');
  await section.locator('summary').click();
  await section.getByRole('heading', { name: /course 1,/ }).waitFor();
  return section;
}

test('a slider goes from course to course', {}, async (designer) => {
  await designer.open();
  const section = await open(designer);
  const picture = section.getByRole('img');
  assert.match(await picture.getAttribute('aria-label'), /^Course from above, to scale\. Firebox/);
  const first = await picture.innerHTML();
  await section.getByRole('button', { name: 'Above' }).click();
  // Firebox, what carries the runs and facing stand on one base.
  await section.getByRole('heading', { name: /^Masonry below the runs/ }).waitFor();
  assert.notEqual(await picture.innerHTML(), first);
  const last = Number(await state(section).getAttribute('max'));
  assert.ok(last > 40, `${last}`);
  await state(section).fill(String(last));
  await section.getByRole('heading', { name: /Cap slab/ }).waitFor();
  const counted = await section.getByText(/Bricks up to here/).innerText();
  const [, laid, all] = counted.match(/: (\d+) of (\d+)/);
  assert.equal(laid, all);
});

test('what is laid stays ticked off on this device', {}, async (designer) => {
  await designer.open();
  let section = await open(designer);
  const laid = () => section.getByRole('button', { name: 'Laid' });
  assert.equal(await laid().getAttribute('aria-pressed'), 'false');
  await laid().click();
  assert.equal(await laid().getAttribute('aria-pressed'), 'true');
  await section.getByRole('button', { name: 'Above' }).click();
  assert.equal(await laid().getAttribute('aria-pressed'), 'false');
  await designer.page.reload();
  section = await open(designer);
  assert.equal(await laid().getAttribute('aria-pressed'), 'true');
  // Another design has its own, and takes none of the first away.
  const opened = async (name) => {
    await designer.button('Designs').click();
    await designer.button(`Open: ${name}`).click();
    await designer.page.waitForFunction((name) => document.title.startsWith(name), name);
  };
  await opened('Small cabin, three runs');
  await laid().and(designer.page.locator('[aria-pressed="false"]')).click();
  await opened('North farmhouse');
  await laid().and(designer.page.locator('[aria-pressed="true"]')).waitFor();
});
