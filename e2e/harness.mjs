// Runs one test in one fresh browser context against its own server, and fails it on anything
// that a person with open developer tools would see. Nothing is tried twice, unless RETRIES says
// so: what passes only then is told as unsteady, with what it failed on.
//
// With BROWSER=firefox in Firefox: what it cannot emulate is left out there, and says why.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { after, test as nodeTest } from 'node:test';
import { launchChromium } from '../tools/chromium.mjs';
import { launchFirefox } from '../tools/firefox.mjs';
import { serve } from '../tools/serve.mjs';
import { DesignerPage } from './page.mjs';

export const isFirefox = process.env.BROWSER === 'firefox';
/** How often a test may fail before it counts. */
const RETRIES = Number(process.env.RETRIES ?? 0);
/** Options of a context that Firefox takes without a word and does not follow. */
const UNKNOWN_TO_FIREFOX = ['hasTouch', 'javaScriptEnabled', 'permissions', 'reducedMotion'];

const browsers = new Map();
after(() => Promise.all([...browsers.values()].map(async (browser) => (await browser).close())));

function browserFor({ colorScheme }) {
  const isDark = isFirefox && colorScheme === 'dark';
  if (!browsers.has(isDark)) {
    browsers.set(isDark, isFirefox ? launchFirefox({ isDark }) : launchChromium());
  }
  return browsers.get(isDark);
}

/** Why a test cannot run in this browser, if it cannot. */
function obstacle(options, onlyInChromium) {
  if (!isFirefox) return undefined;
  const unknown = UNKNOWN_TO_FIREFOX.find((option) => option in options);
  return onlyInChromium ?? (unknown && `Firefox does not follow ${unknown}`);
}

/**
 * Declares a test; `body` is given a `DesignerPage`, not yet opened, and the server.
 *
 * - `prefix`: path below which the page is served.
 * - `folder`: what is served.
 * - `header`: whether the server sends the policy, which stands in the page anyhow.
 * - `timeout`: of the whole test, in ms.
 * - `context`: options of Playwright's browser context (viewport, locale, offline, ...).
 * - `firstVisit`: whether the device has never seen the page, which then shows round.
 * - `expected`: patterns of problems that the test causes on purpose; each must occur.
 * - `onlyInChromium`: why it cannot run in Firefox.
 */
export function test(name, options, body) {
  const { prefix = '/', folder = 'dist', header = true, timeout = 60_000 } = options;
  const { context: asked = {}, firstVisit = false, expected = [] } = options;
  const skip = obstacle(asked, options.onlyInChromium);
  const attempt = async (t) => {
    const browser = await browserFor(asked);
    const server = await serve({ folder, prefix, header });
    // A service worker would take the release from the server as often as there are tests, and
    // answer in its place; those that are about it let it.
    const context = await browser.newContext({ locale: 'en-US', serviceWorkers: 'block', ...asked });
    try {
      context.setDefaultTimeout(10_000);
      if (!firstVisit) await context.addInitScript(rememberVisit);
      await context.addInitScript(makeOrdersHoldable);
      const page = await context.newPage();
      const problems = await watch(page, server.url);
      try {
        await body(new DesignerPage(page, server.url), server);
        // One frame and one round trip, so that what the page has reported is here.
        const frame = () => new Promise((done) => { requestAnimationFrame(done); });
        await page.evaluate(asked.javaScriptEnabled === false ? '0' : frame);
      } catch (error) {
        const path = `build/e2e/${name.replace(/\W+/g, '-')}.png`;
        await mkdir('build/e2e', { recursive: true });
        await page.screenshot({ path, fullPage: true }).catch(() => {});
        t.diagnostic(`picture: ${path}; problems: ${problems.join('; ') || 'none'}`);
        throw error;
      }
      compare(problems, expected);
    } finally {
      await context.close();
      await server.close();
    }
  };
  nodeTest(name, { timeout: timeout * (1 + RETRIES), skip }, async (t) => {
    for (let left = RETRIES; ; left -= 1) {
      try {
        return await attempt(t);
      } catch (error) {
        if (left === 0) throw error;
        t.diagnostic(`UNSTEADY, tried again after: ${error.stack ?? error}`);
      }
    }
  });
}

/** Runs in the page: the walk was seen. Storage may be refused there. */
function rememberVisit() {
  try {
    if (localStorage.getItem('longsmoke.walk') === null) localStorage.setItem('longsmoke.walk', 'seen');
  } catch { /* As good as seen by nobody. */ }
}

/**
 * Runs in the page: what is sent to the workers can be held back, so that a test can look at what
 * is not computed yet for as long as it likes, on a fast machine too.
 */
function makeOrdersHoldable() {
  const send = Worker.prototype.postMessage;
  let held;
  Worker.prototype.postMessage = function post(...message) {
    if (held) held.push(() => send.apply(this, message));
    else send.apply(this, message);
  };
  globalThis.holdOrders = () => { held ??= []; };
  globalThis.releaseOrders = () => {
    const late = held ?? [];
    held = undefined;
    for (const post of late) post();
  };
}

/** Collects errors, refused and foreign requests and policy violations, as text. */
async function watch(page, url) {
  const problems = [];
  const { origin } = new URL(url);
  const local = (address) => new URL(address).origin === origin || /^(data|blob):/.test(address);
  page.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => problems.push(`error: ${error.message}`));
  page.on('request', (request) => {
    if (!local(request.url())) problems.push(`foreign request: ${request.url()}`);
  });
  page.on('requestfailed', (request) => {
    problems.push(`failed: ${request.url()} ${request.failure()?.errorText}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) problems.push(`${response.status()}: ${response.url()}`);
  });
  await page.exposeFunction('reportViolation', (text) => problems.push(`policy: ${text}`));
  await page.addInitScript(() => {
    addEventListener('securitypolicyviolation', (event) => {
      globalThis.reportViolation(`${event.violatedDirective} ${event.blockedURI} ${event.sample}`);
    });
  });
  // Workers report theirs to nobody else; what they write to the console arrives above.
  page.on('worker', (worker) => {
    worker.evaluate(() => {
      addEventListener('securitypolicyviolation', (event) => {
        console.error(`policy: ${event.violatedDirective} ${event.blockedURI} in the worker`);
      });
    }).catch(() => {});
  });
  return problems;
}

/**
 * For a picture the driver writes the style `body {}` into the page, to which Firefox applies the
 * page's policy. It tells a violation as an event and as an error; only the error has the hash.
 */
function isOfDriver(text) {
  return isFirefox && (text.trim() === 'policy: style-src-elem inline'
    || text.includes("'sha256-YjaKGiklmzC6wjXA513HAMmzus8VE61XCOT+SmwNZWA='"));
}

function compare(found, expected) {
  const problems = found.filter((text) => !isOfDriver(text));
  const surprising = problems.filter((text) => !expected.some((pattern) => pattern.test(text)));
  assert.deepEqual(surprising, [], 'problems that the test did not cause on purpose');
  for (const pattern of expected) {
    assert.ok(problems.some((text) => pattern.test(text)), `expected problem ${pattern}`);
  }
}
