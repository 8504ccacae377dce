// The firing day in the page: its figures, its two states, its cursor, its worker.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { test } from './harness.mjs';
import { checked, native } from './native.mjs';

/** The section as a person uses it. */
class DaySection {
  constructor(designer) {
    this.designer = designer;
    this.page = designer.page;
    this.section = this.page.getByTestId('day');
    this.body = this.section.locator('.day-body');
    this.state = this.page.getByTestId('day-state');
    this.moment = this.page.getByTestId('day-moment');
    this.cursor = this.page.getByRole('slider', { name: 'Time shown' });
    this.cancel = this.section.getByRole('button', { name: 'Cancel', exact: true });
    this.again = this.section.getByRole('button', { name: 'Start again', exact: true });
  }

  /** Waits until the day of the present design is shown. */
  async done() {
    await this.page.locator('[data-testid="day"][aria-busy="false"]').waitFor();
  }

  async show(name) {
    await this.section.getByRole('button', { name, exact: true }).click();
  }

  number(name) {
    return this.designer.number(`day-${name}`);
  }

  /** The table of the account as name, share, energy. */
  async account() {
    const rows = await this.page.getByTestId('day-account').locator('tbody tr').allInnerTexts();
    return Object.fromEntries(rows.map((row) => {
      const [name, ...figures] = row.split('\t').map((cell) => cell.trim()).filter(Boolean);
      return [name, figures.map(Number.parseFloat)];
    }));
  }
}

test('the day shows the figures of the native command', {}, async (designer) => {
  const { day } = checked();
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  for (const [name, state] of [['First fire', day.first_fire], ['Once the days repeat', day.periodic]]) {
    await shown.show(name);
    const { energy, peak, draft } = state;
    const room = energy.glass_joules + energy.door_joules + energy.faces_joules + energy.cap_joules;
    const figures = {
      'gas-mean': state.burn_mean.chimney_inlet_celsius.toFixed(0),
      'gas-peak': peak.chimney_inlet.celsius.toFixed(0),
      face: peak.surface.celsius.toFixed(0),
      'room-mean': (room / state.period_s / 1000).toFixed(1),
      'room-peak': (peak.room_watts / 1000).toFixed(1),
      'efficiency-lower': (100 * state.efficiency_lower).toFixed(1),
      'efficiency-higher': (100 * state.efficiency_higher).toFixed(1),
      half: day.hours_to_half.toFixed(1),
      quarter: day.hours_to_quarter.toFixed(1),
      'least-margin': draft.least_margin_pascals.toFixed(1),
      'smoke-back': (draft.smoke_back_s / 60).toFixed(0),
      'coldest-wall': draft.coldest_mouth_wall_celsius.toFixed(0),
      'wet-wall': (draft.wet_wall_s / 60).toFixed(0),
    };
    for (const [id, figure] of Object.entries(figures)) {
      assert.equal(await shown.number(id), Number(figure), `${name}: ${id}`);
    }
    const account = await shown.account();
    const share = (joules) => [
      // Without a minus before nothing.
      Number((100 * joules / energy.wood_joules).toFixed(1)) + 0,
      Number((joules / 3.6e6).toFixed(1)) + 0,
    ];
    assert.deepEqual(account['To the room'], share(room));
    assert.deepEqual(account['Still in the masonry'], share(energy.stored_joules));
    assert.deepEqual(account['Out at the mouth'], share(energy.mouth_joules - energy.air_joules));
    const whole = ['To the room', 'Elsewhere in the house', 'Lost']
      .reduce((sum, side) => sum + account[side][0], 0);
    assert.ok(Math.abs(whole - 100) < 0.25, `${name}: ${whole} %`);
  }
});

test('the switch tells the first fire from the days that repeat', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  const repeating = await shown.number('gas-mean');
  const label = () => designer.figure('day-plot').getAttribute('aria-label');
  const summary = await label();
  await shown.show('First fire');
  assert.ok(await shown.number('gas-mean') < repeating, 'cold masonry takes more');
  assert.notEqual(await label(), summary);
  assert.match(summary, /Over 12 h.* kW.*°C/);
  const pressed = shown.section.getByRole('button', { pressed: true });
  assert.equal(await pressed.textContent(), 'First fire');
});

test('a change grays the day and renews it', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  assert.equal(await shown.body.getAttribute('class'), 'day-body');
  const before = await shown.number('gas-mean');
  await designer.openGroup('Wood and fire');
  await designer.whileWorkersWait(async () => {
    await designer.entry('Charge').fill('18');
    assert.equal(await shown.section.getAttribute('aria-busy'), 'true');
    assert.equal(await shown.body.getAttribute('class'), 'day-body stale');
    assert.equal(await shown.number('gas-mean'), before, 'the old figures stay, grayed');
  });
  await shown.done();
  assert.equal(await shown.body.getAttribute('class'), 'day-body');
  assert.ok(await shown.number('gas-mean') > before);
  // The name alone changes nothing.
  await designer.page.getByLabel('Name of the design').fill('Another');
  assert.equal(await shown.section.getAttribute('aria-busy'), 'false');
});

test('the day is canceled, started again, and begins anew with a change', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  const before = await shown.number('gas-mean');
  const charge = designer.entry('Charge');
  await designer.openGroup('Wood and fire');
  // Out of sight, Firefox does not notice that a button came.
  await shown.section.scrollIntoViewIfNeeded();
  await designer.whileWorkersWait(async () => {
    await charge.fill('18');
    await shown.cancel.click();
    assert.equal(await shown.section.getAttribute('aria-busy'), 'false');
    assert.match(await shown.state.textContent(), /^Canceled/);
  });
  await designer.page.waitForTimeout(2000);
  assert.equal(await shown.number('gas-mean'), before, 'nothing more comes');
  assert.equal(await shown.body.getAttribute('class'), 'day-body stale', 'what is shown is of the design before');

  await designer.whileWorkersWait(async () => {
    await shown.again.click();
    assert.equal(await shown.section.getAttribute('aria-busy'), 'true');
  });
  await shown.done();
  assert.equal(await shown.body.getAttribute('class'), 'day-body');
  assert.ok(await shown.number('gas-mean') > before);
  assert.equal(await shown.cancel.or(shown.again).isVisible(), false, 'nothing is left to cancel');
  assert.ok(await shown.state.evaluate((state) => state === document.activeElement), 'the focus is not lost');

  await designer.whileWorkersWait(async () => {
    await charge.fill('17');
    await shown.cancel.click();
    await charge.fill('12');
  });
  await shown.done();
  assert.doesNotMatch(await shown.state.textContent(), /Canceled/);
  assert.equal(await shown.body.getAttribute('class'), 'day-body');
});

test('of many fast changes the last one is shown', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  await designer.openGroup('Wood and fire');
  const entry = designer.entry('Charge');
  // Some come while the worker rests, some while it computes.
  for (const [charge, pause] of [[10, 0], [11, 280], [16, 0], [17, 320], [12, 0]]) {
    await entry.fill(String(charge));
    await designer.page.waitForTimeout(pause);
  }
  await shown.done();
  const design = JSON.parse(native(['example']));
  design.fire.charge_kg = 12;
  const { day } = checked(JSON.stringify(design));
  assert.equal(await shown.number('room-peak'), Number((day.periodic.peak.room_watts / 1000).toFixed(1)));
  assert.equal(await shown.number('gas-peak'), Number(day.periodic.peak.chimney_inlet.celsius.toFixed(0)));
  await designer.page.waitForTimeout(600);
  assert.equal(await shown.section.getAttribute('aria-busy'), 'false');
});

test('pointer and keyboard move the cursor', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  assert.match(await shown.moment.textContent(), /^After 45 min: fire .* kW.*°C/);
  await shown.cursor.focus();
  await shown.cursor.press('ArrowRight');
  assert.match(await shown.moment.textContent(), /^After 50 min/);
  assert.equal(await shown.cursor.getAttribute('aria-valuetext'), '50 min');
  const firebox = () => designer.figure('day-path').locator('dd').first().textContent();
  const hot = await firebox();
  await shown.cursor.press('End');
  assert.match(await shown.moment.textContent(), /^After 24 h: no fire/);
  assert.notEqual(await firebox(), hot);
  const plot = designer.figure('day-plot');
  await plot.scrollIntoViewIfNeeded();
  const { width, height } = await plot.boundingBox();
  await plot.hover({ position: { x: width / 2, y: height / 2 } });
  assert.match(await shown.moment.textContent(), /^After 1[12] h/);
});

test('the day and what follows it come in US units', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  await designer.button('US').click();
  assert.match(await designer.text('day-gas-mean'), /°F$/);
  assert.match(await designer.text('day-room-mean'), /Btu\/h$/);
  assert.match(await designer.text('day-least-margin'), /in w\.c\.$/);
  assert.match(await shown.moment.textContent(), /Btu\/h.*°F/);
  assert.match(await designer.text('conditions'), /°F.*in w\.c\. to spare/);
  assert.match(await designer.text('route'), /at least .*'.*lb\/h/);
});

test('a day that is not found is told in its section alone', {}, async (designer) => {
  await designer.open();
  const shown = new DaySection(designer);
  await shown.done();
  // Left to the draft in a house that sucks, the fire goes out; the height of the fire at the air
  // that is stated has its figures.
  await designer.openGroup('House and site');
  await designer.page.locator('#group-site summary').click();
  await designer.entry('Suction of the house').fill('30');
  await designer.openGroup('Wood and fire');
  await designer.page.locator('#group-fire summary').click();
  await designer.page.getByLabel('Air during the burn').selectOption({ label: 'Left to the draft' });
  await shown.done();
  assert.match(await shown.state.textContent(), /goes out.*last design that had a day/);
  assert.equal(await designer.page.locator('.trouble-notice[role=status]').isVisible(), false);
});

for (const [width, colorScheme] of [[390, 'light'], [1440, 'light'], [1440, 'dark']]) {
  test(`the day is legible at ${width} px, ${colorScheme}`, {
    context: { viewport: { width, height: 900 }, colorScheme, deviceScaleFactor: 2 },
  }, async (designer) => {
    await designer.open();
    await new DaySection(designer).done();
    await designer.page.locator('[data-testid="trials"][aria-busy="false"]').waitFor({ timeout: 40_000 });
    const overflow = await designer.page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    assert.equal(overflow, 0, 'no sideways scroll');
    const folded = ['.day', '.trials', '.route'].map((part) => `${part} summary:visible`).join(', ');
    for (const summary of await designer.page.locator(folded).all()) {
      await summary.click();
    }
    const folder = 'build/screenshots';
    await mkdir(folder, { recursive: true });
    // What is sticky would lie over the picture.
    await designer.page.evaluate(() => {
      for (const part of document.querySelectorAll('.questions, .caution')) {
        part.style.position = 'static';
      }
    });
    for (const part of ['.day', '.trials', '.conditions', '.route']) {
      const path = `${folder}/${width}-${colorScheme}-${part.slice(1)}.png`;
      await designer.page.locator(part).screenshot({ path });
    }
  });
}
