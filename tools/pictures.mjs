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
    const designer = new DesignerPage(page, server.url);
    await designer.open();
    await page.screenshot({ path, animations: 'disabled' });
    await page.close();
    console.log(path);
  }
} finally {
  await browser.close();
  await server.close();
}
