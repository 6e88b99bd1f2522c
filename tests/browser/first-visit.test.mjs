// What someone meets who opens the site for the first time.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { SIZES, sidewaysOverflow, start } from './lib/app.mjs';

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
      assert.match(await visit.page.innerText('#first-paint'), /wood-gas generator[^]*Drawing the example/);
      assert.deepEqual(await visit.seriousProblems(), []);
      await visit.shot('before-the-program');
      await visit.close();
    });
  }

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
