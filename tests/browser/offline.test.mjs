// After one visit the app works without a network.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { PHONE, appIsThere, start } from './lib/app.mjs';

describe('without a network', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('walks through the whole app after one visit', async () => {
    const { page, context, errors, shot, close } = await site.open(PHONE);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await context.setOffline(true);
    await page.reload();
    await appIsThere(page);
    await page.locator('[data-finding]').first().waitFor();
    await shot('offline-verdicts');
    for (const panel of ['Numbers', 'Charts', 'Designs']) {
      await page.locator('.panel-bar').getByRole('button', { name: panel }).click();
      assert.equal(await page.locator(`#panel-${panel.toLowerCase()}`).isVisible(), true);
      await shot(`offline-${panel.toLowerCase()}`);
    }
    assert.deepEqual(errors, []);
    await close();
  });
});
