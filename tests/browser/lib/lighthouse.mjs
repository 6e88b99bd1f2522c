// What Lighthouse says of the built site as a phone loads it: its mobile preset, over a server that packs its files.
import { launch } from 'chrome-launcher';
import lighthouse from 'lighthouse';
import { CHROMIUM, FLAGS, SITE } from './app.mjs';
import { serve } from './server.mjs';

export const CATEGORIES = ['performance', 'accessibility', 'best-practices', 'seo'];

const PARTS = {
  'first-contentful-paint': 'first contentful paint',
  'largest-contentful-paint': 'largest contentful paint',
  'total-blocking-time': 'total blocking time',
  'cumulative-layout-shift': 'cumulative layout shift',
  'speed-index': 'speed index',
};

/**
 * One visit: `scores` by category of 100, `parts` of the performance as shown, `transfer` in bytes, `failing` (what
 * keeps a category below 100, as readable lines) and `slow` (what would lift the performance).
 */
export async function review(categories = CATEGORIES) {
  const server = await serve(SITE, { packed: true });
  const browser = await launch({ chromePath: CHROMIUM, chromeFlags: [...FLAGS, '--headless=new'], logLevel: 'silent' });
  try {
    // The first visitor waits for the packing; this one is not counted.
    await warm(server.address);
    const options = { port: browser.port, onlyCategories: categories, logLevel: 'silent', output: 'json' };
    const { lhr } = await lighthouse(server.address, options);
    const audits = Object.values(lhr.audits);
    const weighed = categories
      .filter((name) => name !== 'performance')
      .flatMap((name) => lhr.categories[name].auditRefs.filter(({ weight }) => weight > 0).map(({ id }) => lhr.audits[id]));
    return {
      scores: Object.fromEntries(categories.map((name) => [name, Math.round(lhr.categories[name].score * 100)])),
      parts: Object.fromEntries(
        Object.entries(PARTS)
          .filter(([id]) => lhr.audits[id])
          .map(([id, name]) => [name, lhr.audits[id].displayValue]),
      ),
      transfer: lhr.audits['total-byte-weight']?.numericValue,
      failing: weighed.filter(({ score }) => score !== null && score < 1).map(line),
      slow: audits.filter(({ metricSavings, score }) => score !== null && score < 1 && saved(metricSavings) > 0).map(line),
    };
  } finally {
    browser.kill();
    await server.close();
  }
}

const saved = (savings = {}) => Object.values(savings).reduce((sum, one) => sum + one, 0);

const elements = ({ items = [] } = {}) => items.map(({ node }) => node?.selector).filter(Boolean);

const line = ({ id, title, displayValue = '', explanation = '', details, metricSavings }) =>
  [`${id}: ${title}`, displayValue, explanation, ...elements(details), saved(metricSavings) ? JSON.stringify(metricSavings) : '']
    .filter(Boolean)
    .join('; ');

async function warm(address) {
  const page = await (await fetch(address)).text();
  const names = [...page.matchAll(/(?:href|src|data-glue|data-program)="([^"]+)"/g)].map(([, name]) => new URL(name, address));
  await Promise.all(names.map((name) => fetch(name).then((answer) => answer.arrayBuffer())));
}
