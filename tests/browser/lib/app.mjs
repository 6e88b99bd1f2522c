// Opens the built site in Chromium the way a visitor would, and watches what goes wrong meanwhile.
import { mkdir, readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { serve } from './server.mjs';

/** A cheap phone in the hand, and a desk. */
export const PHONE = { name: 'phone', viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
export const DESKTOP = { name: 'desktop', viewport: { width: 1440, height: 900 } };
export const SIZES = [PHONE, DESKTOP];

const inProject = (path) => fileURLToPath(new URL(`../../../${path}`, import.meta.url));
export const SITE = inProject('dist');
const SCREENS = inProject('test-output/screens');
export const WALK = inProject('test-output/walk');

export const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/**
 * Starts server and browser for one test file: `const site = await start(); after(site.stop);`. With `record`, a path,
 * the browser writes there every request it makes; see `netlog.mjs`.
 */
export async function start({ record } = {}) {
  const server = await serve(SITE);
  const args = record ? [...FLAGS, `--log-net-log=${record}`] : FLAGS;
  const browser = await chromium.launch({ executablePath: CHROMIUM, args });
  return {
    address: server.address,
    browser,
    /** Takes the site off the net. */
    cut: () => server.close(),
    /** Opens a fresh profile; see `open`. */
    open: (size, options) => open(browser, server.address, size, options),
    async stop() {
      await browser.close();
      await server.close();
    },
  };
}

/**
 * Opens the site as a first visit in a fresh profile and waits until the app is in the page.
 *
 * Options: `fragment` (what follows # in the address), `context` (more of Playwright's context options, for
 * instance `colorScheme`), `before` (called with the page before it loads, to block storage or slow the
 * network), `waitForApp` (true).
 *
 * What comes back: `page`, `context`, and lists that a test can hold to be empty: `errors` (console errors and
 * exceptions) and `strays` (requests that left the site's own origin).
 */
async function open(browser, address, size, { fragment = '', context: more = {}, before, waitForApp = true } = {}) {
  const { name, ...screen } = size;
  const context = await browser.newContext({ ...screen, ...more });
  const page = await context.newPage();
  const errors = [];
  const strays = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(String(error)));
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (!['data:', 'blob:'].includes(url.protocol) && url.origin !== new URL(address).origin) strays.push(request.url());
  });
  await before?.(page);
  await page.goto(address + (fragment && `#${fragment}`));
  if (waitForApp) await appIsThere(page);
  return {
    page,
    context,
    errors,
    strays,
    /** Keeps a picture of the page as it is now, named by the screen and its size. */
    async shot(screenName, options = {}) {
      await mkdir(SCREENS, { recursive: true });
      await page.screenshot({ path: `${SCREENS}/${screenName}-${name}.png`, ...options });
    },
    seriousProblems: () => seriousProblems(page),
    close: () => context.close(),
  };
}

/** Waits until the program has taken the place of the page's first words and made the whole screen. */
export async function appIsThere(page) {
  await page.waitForSelector('#first-paint', { state: 'detached', timeout: 20_000 });
  await page.waitForSelector('main[data-made="true"]', { timeout: 20_000 });
}

let axeSource;
/** What axe finds in the page, as readable lines; none is as it should be. */
async function seriousProblems(page) {
  axeSource ??= await readFile(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');
  // Evaluated rather than added as a script element, which the page's policy would refuse.
  await page.evaluate(axeSource);
  const { violations } = await page.evaluate(() => globalThis.axe.run({ resultTypes: ['violations'] }));
  return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
}

/**
 * What sticks out of the page sideways, in pixels; 0 on a page that needs no sideways scrolling. A phone makes its window
 * as wide as what sticks out, so the screen is the measure.
 */
export function sidewaysOverflow(page) {
  return page.evaluate(() => {
    const { clientWidth, scrollWidth } = document.documentElement;
    return scrollWidth - Math.min(clientWidth, screen.width);
  });
}
