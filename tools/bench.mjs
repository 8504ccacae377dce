// Timings in the browser, of the built page: from a step of a slider to the figures painted.
// Medians and 95th percentiles, for people to read.
//
//   node tools/bench.mjs [--quick]
import { DesignerPage } from '../e2e/page.mjs';
import { launchChromium } from './chromium.mjs';
import { serve } from './serve.mjs';

const STEPS = process.argv.includes('--quick') ? 10 : 60;
const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];

const server = await serve({ folder: 'dist' });
const browser = await launchChromium();
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-US' });
  await new DesignerPage(page, server.url).open();
  const runLength = page.getByRole('slider', { name: 'Run length' });
  const steps = await runLength.evaluate(async (slider, count) => {
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
  }, STEPS);
  const sorted = steps.sort((a, b) => a - b);
  console.log(`input to figures painted: median ${at(sorted, 0.5).toFixed(1)} ms, p95 ${at(sorted, 0.95).toFixed(1)} ms`);
} finally {
  await browser.close();
  await server.close();
}
