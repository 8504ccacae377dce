// Measures what the page costs a visitor, beside what it may cost, as a table and in
// build/budgets.json: sizes, requests, first paint, start without a network, layout that moves,
// memory, links. What takes place while one works is measured by tools/bench.mjs.
//
//   node tools/budgets.mjs [--edits 600]
//
// Times are medians of three and hold for the machine and its load; nothing is judged by them.
import { mkdir, readdir, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { DesignerPage } from '../e2e/page.mjs';
import { tour } from '../e2e/tour.mjs';
import { launchChromium } from './chromium.mjs';
import { serve } from './serve.mjs';

const FOLDER = 'dist';
const { values: { edits } } = parseArgs({ options: { edits: { type: 'string', default: '600' } } });
const VIEW = { viewport: { width: 1440, height: 900 }, locale: 'en-US' };

const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const thrice = async (measure) => median([await measure(), await measure(), await measure()]);

const rows = [];
const row = (id, what, unit, must, aim, value) => rows.push({ id, what, unit, must, aim, value });

/** A window of its own, with the page not yet opened. */
async function visit(browser, url, options = {}) {
  const context = await browser.newContext({ ...VIEW, serviceWorkers: 'block', ...options });
  // The walk of a first visit would stand before what is measured.
  await context.addInitScript(() => localStorage.setItem('longsmoke.walk', 'seen'));
  const page = await context.newPage();
  return { context, page, designer: new DesignerPage(page, url) };
}

async function programSize() {
  const assets = join(FOLDER, 'assets');
  const name = (await readdir(assets)).find((each) => /^page_bg-.*\.wasm\.br$/.test(each));
  return (await stat(join(assets, name))).size / 1000;
}

/** Bytes on the wire until one can type, and requests to other origins over the tour. */
async function transfers(browser, url) {
  const { context, page, designer } = await visit(browser, url);
  const session = await context.newCDPSession(page);
  await session.send('Network.enable');
  let bytes = 0;
  let foreign = 0;
  session.on('Network.loadingFinished', ({ encodedDataLength }) => { bytes += encodedDataLength; });
  page.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(url) && !/^(data|blob):/.test(address)) foreign += 1;
  });
  await designer.visit();
  await page.locator('#shell').waitFor({ state: 'detached' });
  const first = bytes / 1000;
  await page.locator('.pictures').waitFor();
  const { hash } = new URL(await designer.link());
  let views = 0;
  for await (const { view } of tour(designer, hash)) views += Number(view !== '');
  await context.close();
  return { first, foreign, views };
}

/** What moves by itself while one opens, reads and edits; what follows an input at once does not count. */
async function layoutShift(browser, url) {
  const { context, page, designer } = await visit(browser, url);
  await page.addInitScript(() => {
    globalThis.shifted = 0;
    new PerformanceObserver((list) => {
      for (const { hadRecentInput, value } of list.getEntries()) {
        if (!hadRecentInput) globalThis.shifted += value;
      }
    }).observe({ type: 'layout-shift', buffered: true });
  });
  const settled = () => page.locator('[aria-busy="true"]').first().waitFor({ state: 'detached', timeout: 50_000 });
  await designer.open();
  await settled();
  for (const group of ['Chimney', 'Wood and fire', 'Smoke path']) {
    await designer.openGroup(group);
    await page.waitForTimeout(700);
  }
  const slider = designer.slider('Run length');
  for (const key of ['ArrowLeft', 'ArrowLeft', 'Home', 'End', 'ArrowLeft']) {
    await slider.press(key);
    await settled();
  }
  for (const name of ['US', 'Metric', 'Undo']) {
    await designer.button(name).click();
    await settled();
  }
  const shifted = await page.evaluate(() => globalThis.shifted);
  await context.close();
  return shifted;
}

/** Largest paint, cold, on a slow line and a slow processor. */
async function largestPaint(browser, url) {
  const { context, page, designer } = await visit(browser, url);
  const session = await context.newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', {
    offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 750e3 / 8,
  });
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await designer.visit();
  const time = await page.evaluate(() => new Promise((done) => {
    new PerformanceObserver((list) => done(list.getEntries()[0].startTime))
      .observe({ type: 'largest-contentful-paint', buffered: true });
  }));
  await context.close();
  return time;
}

/** From the order to open until the program has taken the shell's place, without a network. */
async function startOffline(browser) {
  const server = await serve({ folder: FOLDER });
  const { context, page, designer } = await visit(browser, server.url, { serviceWorkers: 'allow' });
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      if (document.getElementById('page') === null || document.getElementById('shell') !== null) return;
      globalThis.startedAfter = performance.now();
      observer.disconnect();
    }).observe(document, { childList: true, subtree: true });
  });
  await designer.open();
  await page.getByText('Ready for use without a network').waitFor();
  await server.close();
  const time = await thrice(async () => {
    await page.goto('about:blank');
    await designer.open();
    return page.evaluate(() => globalThis.startedAfter);
  });
  await context.close();
  return time;
}

/** Runs in the page: the memories of all programs that are started are kept at hand. */
function keepMemories() {
  const memories = new Set();
  const keep = (of) => Object.values(of ?? {}).forEach((each) => {
    if (each instanceof WebAssembly.Memory) memories.add(each);
  });
  for (const name of ['instantiate', 'instantiateStreaming']) {
    const start = WebAssembly[name];
    WebAssembly[name] = async (...given) => {
      const made = await start.apply(WebAssembly, given);
      keep((made.instance ?? made).exports);
      globalThis.memories = [...memories];
      return made;
    };
  }
}

/** Memory of scripts and programs, in page and workers, after so many edits. */
async function memory(browser, url) {
  const { context, page, designer } = await visit(browser, url);
  await page.addInitScript(keepMemories);
  await designer.open();
  const session = await context.newCDPSession(page);
  for (let step = 0; step < Number(edits); step += 1) {
    await designer.drag('Run length', 1 + 0.05 * (step % 20));
    if (step % 10 === 9) await designer.stripDone();
  }
  await session.send('HeapProfiler.enable');
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const programs = await page.evaluate(() => globalThis.memories.map(({ buffer }) => buffer.byteLength));
  await context.close();
  if (programs.length === 0) throw new Error('no program was seen');
  return (usedSize + programs.reduce((sum, size) => sum + size, 0)) / 1e6;
}

/** Length of the link of a design with six runs of their own sizes. */
async function linkLength(browser, url) {
  const { context, page, designer } = await visit(browser, url);
  await designer.open();
  await designer.drag('Runs', 6);
  const card = page.getByTestId('part-card');
  for (let run = 1; run <= 6; run += 1) {
    await card.getByRole('button', { name: `Run ${run}`, exact: true }).click();
    await card.getByRole('textbox', { name: 'Run height' }).fill(String(170 + run));
    await card.getByRole('textbox', { name: 'Run height' }).press('Enter');
  }
  const { hash } = new URL(await designer.link());
  await context.close();
  return hash.length;
}

const server = await serve({ folder: FOLDER });
const browser = await launchChromium();
try {
  const { url } = server;
  row('P1', 'program of the page, brotli 11', 'kB', 260, 180, await programSize());
  const { first, foreign, views } = await transfers(browser, url);
  row('P2', 'whole first load, on the wire', 'kB', 350, 250, first);
  row('P3', `requests to other origins, over ${views} views`, '', 0, 0, foreign);
  row('P4', 'largest paint, cold, slow line and processor', 'ms', 2500, 1200,
    await thrice(() => largestPaint(browser, url)));
  row('P5', 'ready to type, warm, without a network', 'ms', 700, 400, await startOffline(browser));
  row('P6', 'layout shift while one opens, reads and edits', '', 0.02, 0, await layoutShift(browser, url));
  row('P15', `page after ${edits} edits: scripts and program, without workers`, 'MB', 60, 25,
    await memory(browser, url));
  row('P16', 'link of six runs with sizes of their own', 'characters', 400, 250,
    await linkLength(browser, url));
} finally {
  await browser.close();
  await server.close();
}
for (const { id, what, unit, must, aim, value } of rows) {
  const judged = value <= aim ? 'aim' : value <= must ? 'must' : 'MISSED';
  const figure = `${Number(value.toFixed(value < 1 ? 4 : 1))} ${unit}`;
  console.log(id.padEnd(4), what.padEnd(62), figure.padStart(16), `must ${must}`.padStart(10),
    `aim ${aim}`.padStart(9), judged);
}
await mkdir('build', { recursive: true });
await writeFile('build/budgets.json', `${JSON.stringify(rows, null, 2)}\n`);
