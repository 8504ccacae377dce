// Starts the system's Firefox for tests, driven by WebDriver BiDi: no browser is downloaded.
import { firefox } from 'playwright-core';

/**
 * A headless browser of its own, with an empty profile that goes with it.
 *
 * What a page is told of the device is a setting here, and the same in every window: options of a
 * context are taken and change nothing.
 */
export function launchFirefox({ isDark = false } = {}) {
  return firefox.launch({
    channel: 'moz-firefox',
    executablePath: process.env.FIREFOX || '/usr/bin/firefox-esr',
    firefoxUserPrefs: { 'ui.systemUsesDarkTheme': isDark ? 1 : 0 },
  });
}
