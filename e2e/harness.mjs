// Runs one test in one fresh browser context against its own server, and fails it on anything
// that a person with open developer tools would see. There are no retries.
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { after, test as nodeTest } from 'node:test';
import { launchChromium } from '../tools/chromium.mjs';
import { serve } from '../tools/serve.mjs';
import { DesignerPage } from './page.mjs';

let browser;
after(() => browser?.close());

/**
 * Declares a test; `body` is given a `DesignerPage`, not yet opened.
 *
 * - `prefix`: path below which the page is served.
 * - `context`: options of Playwright's browser context (viewport, locale, offline, ...).
 * - `expected`: patterns of problems that the test causes on purpose; each must occur.
 */
export function test(name, { prefix = '/', context: options = {}, expected = [] }, body) {
  nodeTest(name, { timeout: 60_000 }, async (t) => {
    browser ??= await launchChromium();
    const server = await serve({ folder: 'dist', prefix });
    const context = await browser.newContext({ locale: 'en-US', ...options });
    try {
      context.setDefaultTimeout(10_000);
      const page = await context.newPage();
      const problems = await watch(page, server.url);
      try {
        await body(new DesignerPage(page, server.url));
        // One frame and one round trip, so that what the page has reported is here.
        const frame = () => new Promise((done) => { requestAnimationFrame(done); });
        await page.evaluate(options.javaScriptEnabled === false ? '0' : frame);
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
  });
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

function compare(problems, expected) {
  const surprising = problems.filter((text) => !expected.some((pattern) => pattern.test(text)));
  assert.deepEqual(surprising, [], 'problems that the test did not cause on purpose');
  for (const pattern of expected) {
    assert.ok(problems.some((text) => pattern.test(text)), `expected problem ${pattern}`);
  }
}
