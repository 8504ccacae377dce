// A tour of every view of the page, for what has to hold in each.

/** Waits until nothing is computed any more. */
async function settled(page) {
  await page.locator('[aria-busy="true"]').first().waitFor({ state: 'detached', timeout: 100_000 });
}

/** What is computed long, once it is unfolded. */
const STUDIES = ['compare', 'sweep', 'suggest', 'pinned', 'matters'];

/** Unfolds what is folded, and what shows up folded in it. */
async function unfold(page, but = []) {
  for (let round = 0; round < 4; round += 1) {
    const opened = await page.evaluate((left) => {
      const folded = [...document.querySelectorAll('#page details:not([open])')]
        .filter((each) => each.checkVisibility() && !left.includes(each.dataset.testid));
      for (const each of folded) each.querySelector('summary').click();
      return folded.length;
    }, but);
    await settled(page);
    if (opened === 0) return;
  }
}

/** Asks for what is computed only when asked for. */
async function ask(designer) {
  const { page } = designer;
  const sweep = page.getByTestId('sweep');
  await sweep.locator('select').first().selectOption({ label: 'Run length' });
  await sweep.locator('select').nth(1).selectOption({ label: 'Runs' });
  const suggest = page.getByTestId('suggest');
  await suggest.getByLabel('Day of the design').check();
  await suggest.getByRole('button', { name: 'Suggest', exact: true }).click();
  await page.getByTestId('part-card').getByRole('button', { name: 'Run 2', exact: true }).click();
  await settled(page);
}

/** Folds the studies, which otherwise would be computed anew for every change. */
async function fold(page) {
  for (const name of STUDIES) {
    const study = page.getByTestId(name);
    if (await study.getAttribute('open') !== null) await study.locator('> summary').click();
  }
}

/** A design with much to be said of it, entries that are refused, and a copy beside it. */
async function trouble(designer) {
  const { page } = designer;
  await designer.button('Designs').click();
  await designer.button('Keep a copy of this design').click();
  await designer.openGroup('Wood and fire');
  await designer.entry('Moisture (wet basis)').fill('35');
  await designer.openGroup('Smoke path');
  await designer.drag('Runs', 1);
  await designer.entry('Run width').fill('1/2');
  await settled(page);
}

/** What the browser would show only now and then: each in turn, as its script would. */
const SELDOM = ['device-ready', 'device-newer', 'device-other', 'broken', 'absent'];

/**
 * Every view in turn: its name, and where only a part of the page is new since the view before,
 * that part. The page is left as it is until the next is asked for.
 */
export async function* tour(designer, fragment) {
  const { page } = designer;
  await designer.open();
  yield { view: 'before the worker has answered' };
  await settled(page);
  await unfold(page);
  await ask(designer);
  await unfold(page);
  yield { view: 'all unfolded' };
  await designer.more();
  await designer.button('Save as').click();
  yield { view: 'the menu of files', part: '.bar' };
  await page.keyboard.press('Escape');
  for (const head of await page.locator('#decisions .group h3 button').all()) {
    if (await head.getAttribute('aria-expanded') !== 'true') await head.click();
    await unfold(page);
    for (const ask of await page.locator('#decisions .ask:enabled:visible').all()) await ask.click();
    yield { view: await head.textContent(), part: '#decisions' };
  }
  await fold(page);
  await trouble(designer);
  yield { view: 'refused entries, findings, copies' };
  for (const id of SELDOM) {
    await page.evaluate((name) => { document.getElementById(name).hidden = false; }, id);
    yield { view: id, part: `#${id}` };
    await page.evaluate((name) => { document.getElementById(name).hidden = true; }, id);
  }
  // Phones have the list of sections behind a button.
  const sections = designer.button('Sections');
  if (await sections.isVisible()) await sections.click();
  yield { view: 'the list of sections' };
  await page.keyboard.press('Escape');
  await designer.more();
  yield { view: 'what the bar puts away', part: '.bar' };
  await designer.button('Show me round').click();
  yield { view: 'the walk' };
  await page.goto('about:blank');
  await designer.open(fragment);
  yield { view: 'a design by link' };
  await page.evaluate(() => { location.hash = '#99.abc'; });
  await page.getByRole('alert').filter({ hasText: 'newer version' }).waitFor();
  yield { view: 'a link that cannot be read' };
}

/** All but the studies unfolded, and in trouble; in each theme. */
export async function* shortTour(designer) {
  await designer.open();
  await settled(designer.page);
  await unfold(designer.page, STUDIES);
  await trouble(designer);
  for (const theme of ['light', 'dark', 'bright']) {
    await designer.more();
    await designer.page.getByLabel('Colors').selectOption(theme);
    yield { view: `unfolded, in trouble, ${theme}` };
  }
}
