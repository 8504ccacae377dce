// The page as a person sees it: tests say what they do, this file knows how.

/** Types key by key: Firefox tells of a change only where somebody typed. */
export async function type(entry, text) {
  await entry.fill('');
  await entry.pressSequentially(text);
}

/** One visit. `page` is Playwright's, for what has no method here yet. */
export class DesignerPage {
  constructor(page, url) {
    this.page = page;
    this.url = url;
    /** The block that a panic or a trap shows. */
    this.broken = page.getByRole('alert').filter({ hasText: 'Something broke' });
    this.brokenLink = this.broken.getByRole('link', { name: 'link to your design' });
    /** The block for a program that did not arrive. */
    this.absent = page.getByRole('alert').filter({ hasText: 'did not load' });
  }

  /** Opens the page and waits until all of it stands. */
  async open(fragment = '') {
    await this.visit(fragment);
    await this.page.locator('.pictures').waitFor({ state: 'attached' });
  }

  /** Opens the page without waiting for the program. */
  async visit(fragment = '') {
    await this.page.goto(this.url + fragment);
  }

  /** Makes the program panic, by the event that only tests send. */
  async panic() {
    await this.page.evaluate(() => dispatchEvent(new Event('longsmoke-test-panic')));
  }

  /** Starts a worker as the program does, sends one order and gives its first answer. */
  async askWorker(order) {
    return this.page.evaluate((text) => new Promise((answer, fail) => {
      const worker = globalThis.longsmokeWorker();
      worker.onmessage = ({ data }) => answer(data);
      worker.onerror = ({ message }) => fail(new Error(`worker: ${message}`));
      worker.postMessage(text);
    }), order);
  }

  /** Holds back what is asked of the workers until `body` is done, which sees the page wait. */
  async whileWorkersWait(body) {
    await this.page.evaluate(() => globalThis.holdOrders());
    await body();
    await this.page.evaluate(() => globalThis.releaseOrders());
  }

  /** A figure by its test id: margin, chimney-inlet, efficiency, mouth-wall, dew-point, ... */
  figure(name) {
    return this.page.getByTestId(name);
  }

  async text(name) {
    return (await this.figure(name).textContent()).replace(/\s+/g, ' ').trim();
  }

  /** The figure as a number. */
  async number(name) {
    return Number.parseFloat(await this.text(name));
  }

  button(name) {
    return this.page.getByRole('button', { name, exact: true });
  }

  /** Opens what the bar puts away: more where it is narrow. */
  async more() {
    const more = this.button('More');
    if (await more.isVisible() && await more.getAttribute('aria-expanded') !== 'true') await more.click();
  }

  /** Opens a group of decisions, unless it is open. */
  async openGroup(name) {
    const head = this.page.locator('#decisions').getByRole('button', { name, exact: true });
    if (await head.getAttribute('aria-expanded') !== 'true') await head.click();
  }

  /** The text of a decision, by its label. */
  entry(label) {
    return this.page.locator('#decisions').getByRole('textbox', { name: label, exact: true });
  }

  slider(label) {
    return this.page.locator('#decisions').getByRole('slider', { name: label, exact: true });
  }

  /** The grip on a drawing that changes a decision. */
  grip(label) {
    return this.page.locator('.grip-place:not([hidden])').getByRole('slider', { name: label, exact: true });
  }

  /** Drags a grip with the mouse by so many pixels to the right and down, without letting go. */
  async pull(label, right, down, steps = 8) {
    // What is sticky may lie over a grip near the edge of the window.
    await this.grip(label).evaluate((grip) => grip.scrollIntoView({ block: 'center' }));
    const box = await this.grip(label).boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await this.page.mouse.move(x, y);
    await this.page.mouse.down();
    await this.page.mouse.move(x + right, y + down, { steps });
    // A move asks for a frame, and what it changes is drawn in the next.
    await this.page.evaluate(() => new Promise((done) => {
      requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)));
    }));
  }

  /** What a decision refuses, in words; empty when nothing. */
  problemOf(label) {
    const entry = this.page.getByRole('textbox', { name: label, exact: true });
    return this.page.locator('.field').filter({ has: entry }).locator('.problem');
  }

  /** Drags a slider through values (SI) in one gesture. */
  async drag(label, ...values) {
    await this.slider(label).evaluate((slider, steps) => {
      for (const step of steps) {
        slider.value = step;
        slider.dispatchEvent(new Event('input', { bubbles: true }));
      }
      slider.dispatchEvent(new Event('change', { bubbles: true }));
    }, values);
  }

  /** Waits until the worker has compared all numbers of runs. */
  async stripDone() {
    await this.page.locator('.columns[aria-busy="false"]').waitFor();
  }

  /** Link that carries the present design. */
  async link() {
    await this.page.locator('.bar .main[aria-busy="false"]').waitFor();
    return this.page.evaluate(() => globalThis.longsmokeLink);
  }

  /** Puts a text into the browser's storage before the page opens. */
  async storeBefore(key, text) {
    await this.page.addInitScript((pair) => {
      try {
        localStorage.setItem(...pair);
      } catch {
        // Firefox runs this in its empty first page too, which has no storage.
      }
    }, [key, text]);
  }

  stored(key) {
    return this.page.evaluate((name) => localStorage.getItem(name), key);
  }

  finding(rule) {
    return this.page.locator(`[data-rule="${rule}"]`);
  }
}
