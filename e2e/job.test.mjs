// The main job in the browser, from an example that fails a question to three answers of yes and all
// the way back: by mouse, by keyboard alone, by touch.
import assert from 'node:assert/strict';
import { test } from './harness.mjs';

const LAPTOP = { viewport: { width: 1440, height: 900 } };
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
/** Its gas is too slow in the last run. */
const EXAMPLE = 'Open: Heavy, faced with stone';
const LONG = { timeout: 180_000 };
/** Presses after which something else is wrong. */
const ENOUGH = 12;

/** Waits until the present design is judged, the day and the unfavorable edge included. */
async function judged(designer) {
  // A job waits for a rest before it is under way.
  await designer.page.waitForTimeout(500);
  for (const name of ['day', 'edges']) {
    await designer.page.locator(`[data-testid="${name}"][aria-busy="false"]`).waitFor({ timeout: 60_000 });
  }
}

const answer = (designer, question) => designer.text(`answer-${question}`);
const undo = (designer) => designer.button('Undo');

/** Presses until the first question is answered with yes; says how often. */
async function pressed(designer, press) {
  for (let times = 1; times <= ENOUGH; times += 1) {
    await press();
    await judged(designer);
    if (await answer(designer, 'draw') === 'Yes') return times;
  }
  return assert.fail(`${await answer(designer, 'draw')} after ${ENOUGH} presses`);
}

async function passes(designer) {
  await judged(designer);
  assert.equal(await answer(designer, 'draw'), 'Yes');
  assert.equal(await answer(designer, 'heat'), 'Yes');
  assert.equal(await answer(designer, 'safe'), 'What was checked passed');
  const severities = await designer.page.locator('.finding .severity').allTextContents();
  assert.ok(severities.every((text) => text.includes('Good to know')), severities.join());
}

/** Takes every step back, each by one press, and is where one began. */
async function back(designer, press, { steps, link }) {
  for (let step = 0; step < steps; step += 1) {
    assert.ok(await undo(designer).isEnabled(), `only ${step} of ${steps} steps`);
    await press();
  }
  assert.ok(await undo(designer).isDisabled(), `more than ${steps} steps`);
  assert.equal(await designer.link(), link);
}

test('from an example to a passing verdict and back by mouse', { ...LONG, context: LAPTOP }, async (designer) => {
  await designer.open();
  const link = await designer.link();
  await designer.button('Designs').click();
  await designer.button(EXAMPLE).click();
  await judged(designer);
  assert.equal(await answer(designer, 'draw'), 'Look again');
  const steps = await pressed(designer, async () => {
    // The ceiling of a run, a little lower.
    await designer.pull('Run height', 0, 3);
    await designer.page.mouse.up();
  });
  await passes(designer);
  await back(designer, () => undo(designer).click(), { steps: steps + 1, link });
});

test('the same by keyboard alone', { ...LONG, context: LAPTOP }, async (designer) => {
  await designer.open();
  const { page } = designer;
  const link = await designer.link();
  const tabTo = async (locator) => {
    await locator.waitFor();
    for (let at = 0; at < 200; at += 1) {
      if (await locator.evaluate((element) => element === document.activeElement)) return;
      await page.keyboard.press('Tab');
    }
    assert.fail('not reached by Tab');
  };
  await tabTo(designer.button('Designs'));
  await page.keyboard.press('Enter');
  await tabTo(designer.button(EXAMPLE));
  await page.keyboard.press('Enter');
  await judged(designer);
  assert.equal(await answer(designer, 'draw'), 'Look again');
  await tabTo(designer.grip('Run height'));
  const steps = await pressed(designer, () => page.keyboard.press('ArrowDown'));
  await passes(designer);
  assert.ok(await designer.grip('Run height').evaluate((grip) => grip === document.activeElement), 'the focus stays');
  await back(designer, () => page.keyboard.press('Control+z'), { steps: steps + 1, link });
});

test('the same by touch on a phone', { ...LONG, context: PHONE }, async (designer) => {
  await designer.open();
  const link = await designer.link();
  await designer.button('Designs').tap();
  await designer.button(EXAMPLE).tap();
  await judged(designer);
  assert.equal(await answer(designer, 'draw'), 'Look again');
  const card = designer.page.getByTestId('part-card');
  await card.getByRole('button', { name: 'Run 6', exact: true }).tap();
  const smaller = card.getByRole('button', { name: 'Run height, smaller', exact: true });
  const { width, height } = await smaller.boundingBox();
  assert.ok(width >= 44 && height >= 44, `${width} x ${height} px`);
  const steps = await pressed(designer, () => smaller.tap());
  await passes(designer);
  await back(designer, () => undo(designer).tap(), { steps: steps + 1, link });
});
