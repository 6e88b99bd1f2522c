// What someone meets who opens the site for the first time.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { SIZES, appIsThere, sidewaysOverflow, start } from './lib/app.mjs';

/** In the page: what is read in it and where the main things stand, in whole pixels. */
function lookAround() {
  const all = (selector) => [...document.querySelectorAll(selector)];
  const words = (element) => element.innerText.replaceAll(/\s+/g, ' ').trim();
  const place = (selector) => {
    const { x, y, width, height } = document.querySelector(selector).getBoundingClientRect();
    return [selector, ...[x, y, width, height].map(Math.round)];
  };
  return {
    texts: ['.top h1', '.notice', '.summary', '.drawing > svg text', '.panel-bar button:not([hidden])']
      .flatMap(all)
      .map((element) => (element instanceof SVGElement ? element.textContent : words(element)))
      .concat(all('article .finding-head, article > .caution').map(words)),
    places: ['.top h1', '.notice', '.summary', '.drawing > svg', '.how-sure button', '.best-step', 'article', 'article h3'].map(place),
  };
}

describe('first visit', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`starts the app quietly on a ${size.name}`, async () => {
      const visit = await site.open(size);
      assert.match(await visit.page.innerText('header'), /example/i, 'the example says that it is one');
      assert.match(await visit.page.innerText('.summary'), /\d+ Stop/, 'what fails is counted at first sight');
      assert.ok(await visit.page.locator('figure.drawing svg').isVisible(), 'the machine is drawn');
      assert.ok(await visit.page.locator('article[data-verdict="Stop"]').first().isVisible(), 'a failing question is in view');
      assert.deepEqual(visit.errors, [], 'nothing in the console');
      assert.deepEqual(visit.strays, [], 'no request leaves the site');
      assert.equal(await sidewaysOverflow(visit.page), 0, 'nothing to scroll sideways');
      await visit.shot('first-visit', { fullPage: true });
      await visit.close();
    });

    it(`says what it is before the program is there on a ${size.name}`, async () => {
      const visit = await site.open(size, {
        waitForApp: false,
        before: (page) => page.route('**/*.wasm', () => {}),
      });
      assert.match(await visit.page.innerText('#first-paint'), /wood-gas generator[^]*The calculator is loading/);
      assert.deepEqual(await visit.seriousProblems(), []);
      await visit.shot('before-the-program');
      await visit.close();
    });

    it(`draws the example before the program is there, just as the program does, on a ${size.name}`, async () => {
      let goOn;
      const held = new Promise((resolve) => {
        goOn = resolve;
      });
      const visit = await site.open(size, {
        waitForApp: false,
        before: (page) => page.route('**/*.wasm', (route) => held.then(() => route.continue())),
      });
      const { page } = visit;
      await page.locator('#first-screen article').first().waitFor();
      const early = await page.evaluate(lookAround);
      assert.equal(await sidewaysOverflow(page), 0);
      goOn();
      await appIsThere(page);
      assert.equal(await page.locator('#first-screen').count(), 0);
      const late = await page.evaluate(lookAround);
      assert.ok(early.texts.length > 8);
      assert.deepEqual(early.texts, late.texts.slice(0, early.texts.length));
      assert.deepEqual(early.places, late.places);
      assert.deepEqual(visit.errors, []);
      await visit.close();
    });

    it(`draws no example for those who come back or follow a link, on a ${size.name}`, async () => {
      const noProgram = (page) => page.route('**/*.wasm', () => {});
      const linked = await site.open(size, { waitForApp: false, before: noProgram, fragment: 'd=anything' });
      assert.equal(await linked.page.locator('#first-screen').isVisible(), false);
      assert.ok(await linked.page.getByText('The calculator is loading').isVisible());
      await linked.close();
      const kept = await site.open(size, {
        waitForApp: false,
        before: async (page) => {
          await noProgram(page);
          await page.addInitScript(() => localStorage.setItem('hearthplan/units', 'inch'));
        },
      });
      assert.equal(await kept.page.locator('#first-screen article').first().isVisible(), false);
      await kept.close();
    });
  }

  it('starts with what the build found to mend the example, which is what the app finds itself', async () => {
    const searched = '.verdicts[aria-busy="false"]';
    const found = (page) => page.locator('.remedies').evaluateAll((lists) => lists.map((list) => list.textContent));
    const first = await site.open(SIZES[0]);
    assert.ok(await first.page.locator(searched).isVisible(), 'nothing is left to look for');
    const known = await found(first.page);
    await first.close();
    const withoutOutcome = async (route) => {
      const answer = await route.fetch();
      const page = await answer.text();
      assert.match(page, /id="?first-outcome/);
      await route.fulfill({ response: answer, body: page.replace('first-outcome', 'not-known') });
    };
    const alone = await site.open(SIZES[0], { before: (page) => page.route((url) => url.pathname === '/', withoutOutcome) });
    await alone.page.waitForSelector(searched, { timeout: 20_000 });
    assert.ok(known.join('').length > 100);
    assert.deepEqual(await found(alone.page), known);
    await alone.close();
  });

  it('says so when the program cannot be loaded', async () => {
    const visit = await site.open(SIZES[0], { waitForApp: false, before: (page) => page.route('**/*.wasm', (route) => route.abort()) });
    await visit.page.getByText('could not start').waitFor({ timeout: 10_000 });
    await visit.close();
  });

  it('says so when the program breaks later on', async () => {
    const visit = await site.open(SIZES[0]);
    await visit.page.evaluate(() => {
      setTimeout(() => {
        throw new WebAssembly.RuntimeError('unreachable');
      });
    });
    await visit.page.getByRole('alert').getByText('Please reload the page').waitFor({ timeout: 10_000 });
    await visit.close();
  });

  it('says what is missing where programs are not allowed', async () => {
    const visit = await site.open(SIZES[0], { waitForApp: false, context: { javaScriptEnabled: false } });
    assert.match(await visit.page.innerText('#first-paint'), /allow JavaScript/);
    await visit.close();
  });
});
