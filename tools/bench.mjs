// Timings in the browser, of the built page: from a step of a slider to the figures painted, as
// the machine is and with its processor slowed four times. Then what such a step computes, as wasm
// built as the page is, and analyses in the page's worker. Medians and 95th percentiles, for people
// to read.
//
//   node tools/bench.mjs [--quick]
import { execFileSync } from 'node:child_process';
import { DesignerPage } from '../e2e/page.mjs';
import { launchChromium } from './chromium.mjs';
import { serve } from './serve.mjs';

const quick = process.argv.includes('--quick');
const STEPS = quick ? 10 : 60;
const STRIPS = quick ? 3 : 15;
/** Analyses in a strip: ten numbers of runs, each as stated and with the air open. */
const ANALYSES = 20;

const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
const say = (what, times) => {
  const sorted = times.sort((a, b) => a - b);
  console.log(`${what}: median ${at(sorted, 0.5).toFixed(2)} ms, p95 ${at(sorted, 0.95).toFixed(2)} ms`);
};

/** Moves a slider and takes the time until the browser has painted what follows. */
const slide = async (slider, count) => {
  const painted = () => new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done));
  });
  const times = [];
  for (let step = 0; step < count; step += 1) {
    const low = Number(slider.min);
    slider.value = String(low + ((Number(slider.max) - low) * (10 + (step % 30))) / 50);
    await new Promise((done) => { setTimeout(done, 40); });
    const start = performance.now();
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    await painted();
    times.push(performance.now() - start);
  }
  return times;
};

/** Drags a grip to and fro and gives the times between frames. */
const drag = async (page, duration) => {
  const grip = page.locator('.section-frame').getByRole('slider', { name: 'Run length' });
  const box = await grip.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const frames = page.evaluate((time) => new Promise((done) => {
    const times = [];
    let last = performance.now();
    const end = last + time;
    const frame = (now) => {
      times.push(now - last);
      last = now;
      if (now < end) requestAnimationFrame(frame);
      else done(times.slice(1));
    };
    requestAnimationFrame(frame);
  }), duration);
  const end = Date.now() + duration;
  for (let step = 0; Date.now() < end; step += 1) {
    await page.mouse.move(x - 60 + 60 * Math.cos(step / 20), y);
  }
  await page.mouse.up();
  return frames;
};

/** Orders something many times from a worker of its own and takes the time from order to answer. */
const order = async ({ what, count, design }) => {
  const worker = globalThis.longsmokeWorker();
  const answered = (generation) => new Promise((done) => {
    worker.onmessage = (event) => {
      if (String(event.data).startsWith(`${generation} found `)) done();
    };
    worker.postMessage(`${what} ${generation} ${design}`);
  });
  const times = [];
  for (let generation = 1; generation <= count + 1; generation += 1) {
    const start = performance.now();
    await answered(generation);
    // The first one loads the program.
    if (generation > 1) times.push(performance.now() - start);
  }
  worker.terminate();
  return times;
};

/** From the press that asks for a study until it is told, as the page itself sees it: whoever looks from
 *  outside does so twice a second. With the longest task of the page meanwhile. */
const study = async (page, name, pressed) => {
  const view = page.getByTestId(name);
  await view.evaluate((within, press) => {
    const told = { longest: 0 };
    globalThis.told = told;
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) told.longest = Math.max(told.longest, duration);
    }).observe({ type: 'longtask' });
    const since = () => performance.now() - told.asked;
    new MutationObserver(() => {
      if (told.asked === undefined) return;
      if (within.querySelector('[role="img"], table')) told.first ??= since();
      if (within.querySelector('table')) told.all ??= since();
    }).observe(within, { childList: true, subtree: true });
    within.addEventListener('click', ({ target }) => {
      if (target.closest(press)) told.asked ??= performance.now();
    }, { capture: true });
  }, pressed);
  const summary = view.locator('> summary');
  await summary.click();
  if (pressed !== 'summary') await view.locator(pressed).click();
  await page.waitForFunction(() => globalThis.told.all !== undefined, null, { timeout: 120_000 });
  const { first, all, longest } = await page.evaluate(() => globalThis.told);
  console.log(`${name}: first told after ${first.toFixed(0)} ms, all after ${all.toFixed(0)} ms;`
    + ` longest task of the page ${longest < 50 ? 'below 50' : longest.toFixed(0)} ms`);
};

const server = await serve({ folder: 'dist' });
const browser = await launchChromium();
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US' });
  await new DesignerPage(page, server.url).open();
  const runLength = page.locator('#decisions').getByRole('slider', { name: 'Run length' });
  say('input to figures painted', await runLength.evaluate(slide, STEPS));
  const frames = await drag(page, quick ? 500 : 3000);
  const late = frames.filter((time) => time > 33.4).length;
  console.log(`frames over 33 ms while a grip is dragged: ${late} of ${frames.length}`);
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  say('the same, processor slowed 4 times', await runLength.evaluate(slide, STEPS));
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  const design = JSON.stringify({ heater_design_version: 1 });
  const ordered = (what, count) => page.evaluate(order, { what, count, design });
  const strips = await ordered('strip', STRIPS);
  say('one analysis with findings, in the worker', strips.map((time) => time / ANALYSES));
  say('500 samples, in a worker', await ordered('samples', quick ? 1 : 3));
  say('a link, from its order to its answer', await ordered('link', STRIPS));
  const fresh = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US' });
  await new DesignerPage(fresh, server.url).open();
  // What the page computes by itself comes first.
  await fresh.locator('[aria-busy="true"]:visible').first().waitFor({ state: 'detached', timeout: 60_000 });
  await study(fresh, 'compare', 'summary');
  await study(fresh, 'suggest', 'button.main');
  const steps = execFileSync(process.execPath, ['build/wasm/step/step.js'], { encoding: 'utf8' });
  say('one analysis with findings and drawing data, as the page is built', steps.trim().split(' ').map(Number));
} finally {
  await browser.close();
  await server.close();
}
