// Takes the README's pictures of the built page: docs/page.png and docs/phone.png.
//
//   node tools/pictures.mjs
import { mkdir } from 'node:fs/promises';
import { DesignerPage } from '../e2e/page.mjs';
import { launchChromium } from './chromium.mjs';
import { serve } from './serve.mjs';

const PICTURES = [
  { path: 'docs/page.png', viewport: { width: 1440, height: 900 } },
  { path: 'docs/phone.png', viewport: { width: 390, height: 844 }, deviceScaleFactor: 2 },
];

await mkdir('docs', { recursive: true });
const server = await serve({ folder: 'dist' });
const browser = await launchChromium();
try {
  for (const { path, ...context } of PICTURES) {
    const page = await browser.newPage({ ...context, locale: 'en-US', colorScheme: 'light' });
    // Whom the page has shown round before.
    await page.addInitScript(() => localStorage.setItem('longsmoke.walk', 'seen'));
    const designer = new DesignerPage(page, server.url);
    await designer.open();
    // With all that is judged later, and without what is said once.
    await page.locator('#findings .finding').first().waitFor();
    await page.locator('[aria-busy="true"]:visible').first().waitFor({ state: 'detached', timeout: 60_000 });
    await page.locator('#device-ready .device-close').click();
    await page.screenshot({ path, animations: 'disabled' });
    await page.close();
    console.log(path);
  }
} finally {
  await browser.close();
  await server.close();
}
