// Draws the icons that need pixels from their drawings: web/public/*.png.
//
//   node tools/icons.mjs
import { readFile } from 'node:fs/promises';
import { launchChromium } from './chromium.mjs';

const ICONS = [
  { from: 'web/public/icon.svg', to: 'web/public/icon-192.png', size: 192 },
  { from: 'web/public/icon.svg', to: 'web/public/icon-512.png', size: 512 },
  { from: 'web/maskable.svg', to: 'web/public/icon-maskable.png', size: 512 },
  { from: 'web/maskable.svg', to: 'web/public/apple-touch-icon.png', size: 180 },
];

const browser = await launchChromium();
try {
  for (const { from, to, size } of ICONS) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    const drawing = Buffer.from(await readFile(from)).toString('base64');
    await page.setContent(`<style>body { margin: 0 } img { display: block; width: 100% }</style>
      <img src="data:image/svg+xml;base64,${drawing}">`);
    await page.screenshot({ path: to, omitBackground: true });
    await page.close();
    console.log(to);
  }
} finally {
  await browser.close();
}
