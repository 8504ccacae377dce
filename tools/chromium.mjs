// Starts the system's Chromium for tests and pictures: no browser is downloaded.
import { chromium } from 'playwright-core';

/** A headless browser of its own, with an empty profile that goes with it. */
export function launchChromium() {
  return chromium.launch({
    executablePath: process.env.CHROME || '/usr/bin/chromium',
    // Playwright itself adds --no-sandbox (needed as root; it opens only our own pages).
    // Without the others, Chromium calls its maker at every start.
    args: [
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-gpu',
      '--disable-quic',
      '--disable-sync',
      '--no-first-run',
    ],
  });
}
