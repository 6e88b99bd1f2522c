// All steps one after another: looked for when asked for, taken with one tap, undone with another.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, SIZES, start } from './lib/app.mjs';
import { enter, showPanel, verdicts } from './lib/screen.mjs';

const stopsOf = async (page) => Object.values(await verdicts(page)).filter((verdict) => verdict === 'Stop').length;
const wayOf = (page) => page.locator('.whole-way');

/** Asks for all steps and waits until they are found. */
async function find(page) {
  await showPanel(page, 'verdicts');
  await wayOf(page).locator('.ask').click();
  await page.locator('.whole-way[data-whole="true"]').waitFor({ timeout: 90_000 });
}

/** How many Stops each step leaves, as told. */
async function left(page) {
  const steps = await wayOf(page).locator('li').allTextContents();
  return steps.map((step) => Number(/(\d+|No) Stops? left/.exec(step)?.[1].replace('No', '0')));
}

describe('all steps one after another', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`leads the first drawing down to few Stops on a ${size.name}`, async () => {
      const { page, errors, shot, close } = await site.open(size);
      const before = await stopsOf(page);
      await find(page);
      const counts = await left(page);
      assert.ok(counts.length > 3, `${counts}`);
      assert.ok(counts.at(-1) < before / 4, `${before} → ${counts}`);
      const said = await wayOf(page).locator('[role="status"]').innerText();
      assert.match(said, new RegExp(`^${counts.length} changes: `));
      const open = await wayOf(page).locator('.open-question').allTextContents();
      assert.equal(open.length, counts.at(-1), 'what is left is told one by one');
      assert.ok(open.some((told) => /still stops\. Only you can decide or find out/.test(told)), `${open}`);
      assert.ok(open.some((told) => /still stops: .*get or build that part otherwise/.test(told)), `${open}`);
      assert.equal(await page.locator('.best-step [data-left]').count(), 0, 'and not a second time above');
      await shot('whole-way');
      const best = page.locator('.best-step > .remedies');
      assert.ok(!(await best.isVisible()), 'the first steps are not told twice');
      assert.match(await page.locator('.best-step h2').innerText(), /^All steps/);
      await wayOf(page).locator('.ask').click();
      await best.waitFor();
      assert.equal(await wayOf(page).locator('li').count(), 0);
      await find(page);

      await wayOf(page).locator('.apply').click();
      await page.waitForFunction((wanted) => document.querySelectorAll('article[data-verdict="Stop"]').length === wanted, counts.at(-1));
      assert.equal(await stopsOf(page), counts.at(-1));
      assert.equal(await wayOf(page).locator('li').count(), 0, 'the steps go once they are taken');
      await page.locator('button[aria-label^="Undo"]:visible').first().click();
      await page.waitForFunction((wanted) => document.querySelectorAll('article[data-verdict="Stop"]').length === wanted, before);
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('finds the same steps without workers', async () => {
    const found = [];
    for (const before of [undefined, (page) => page.addInitScript(() => delete globalThis.Worker)]) {
      const { page, close } = await site.open(DESKTOP, { before });
      await find(page);
      found.push(await wayOf(page).locator('li').allTextContents());
      await close();
    }
    assert.deepEqual(found[1], found[0]);
  });

  it('drops what it found when the design changes, and stops when told to', async () => {
    const { page, close } = await site.open(DESKTOP);
    const ask = wayOf(page).locator('.ask');
    const words = await ask.innerText();
    await ask.click();
    assert.notEqual(await ask.innerText(), words);
    await ask.click();
    assert.equal(await ask.innerText(), words);
    assert.equal(await wayOf(page).locator('li').count(), 0);

    await find(page);
    await enter(page, 'base.width', '900');
    await page.waitForFunction(() => document.querySelectorAll('.whole-way li').length === 0);
    assert.equal(await wayOf(page).locator('.apply').count(), 0);
    await close();
  });
});
