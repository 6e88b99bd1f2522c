// What was done last among the best steps stands in sight, with the way back beside it.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { showPanel, verdicts } from './lib/screen.mjs';

describe('the last step', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`is told and taken back on a ${size.name}`, async () => {
      const { page, errors, shot, close } = await site.open(size);
      await showPanel(page, 'verdicts');
      const step = page.locator('.verdicts[aria-busy="false"] .best-step > .remedies li').first();
      await step.waitFor({ timeout: 20_000 });
      const before = await verdicts(page);
      const words = await step.locator('.apply').getAttribute('aria-label');
      await step.locator('.apply').click();
      const done = page.locator('.best-step .done');
      await done.waitFor();
      const wanted = words.replace(/^Apply(?: both)?: /, '').slice(1, 12);
      assert.ok((await done.innerText()).startsWith('Done: '), await done.innerText());
      assert.ok((await done.innerText()).includes(wanted), `${await done.innerText()}: ${wanted}`);
      // Said aloud once.
      assert.equal(await page.locator('[aria-live]', { hasText: 'Done: ' }).count(), 1);
      await step.waitFor({ timeout: 20_000 });
      await shot('done');
      const undo = done.getByRole('button');
      const box = await undo.boundingBox();
      assert.ok(box.height >= 44 && box.width >= 44, `${box.width} × ${box.height}`);
      assert.equal(await sidewaysOverflow(page), 0);
      await undo.click();
      await done.waitFor({ state: 'detached' });
      assert.deepEqual(await verdicts(page), before);
      assert.deepEqual(errors, []);
      await close();
    });
  }
});
