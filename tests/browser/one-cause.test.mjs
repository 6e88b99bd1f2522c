// What fails for one cause: told with the one change that mends it, and from the other verdicts a way there.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { answered, showPanel, tabTo, verdicts } from './lib/screen.mjs';

const NO_WAY = /no change and no two together/;
const card = (page, id) => page.locator(`article[data-finding="${id}"]`);
const pointer = (page, id) => card(page, id).locator('.elsewhere');

/** Waits until what mends the first drawing is there. */
async function offered(page) {
  await showPanel(page, 'verdicts');
  await page.locator('.verdicts[aria-busy="false"] .best-step .apply').first().waitFor({ timeout: 60_000 });
}

/** Waits until what matches has the focus and is in sight. */
const reached = (page, selector) =>
  page.waitForFunction((wanted) => {
    const { activeElement } = document;
    const { top, bottom } = activeElement.getBoundingClientRect();
    const covered = [...document.querySelectorAll('.stays, .summary, .top')].map((one) => one.getBoundingClientRect());
    const isFree = covered.every((one) => one.bottom <= top + 1 || one.top >= bottom || one.right <= activeElement.getBoundingClientRect().left);
    return activeElement.matches(wanted) && isFree && bottom <= innerHeight;
  }, selector);

describe('what fails for one cause', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    for (const colorScheme of ['light', 'dark']) {
      it(`is told once on a ${size.name}, ${colorScheme}`, async () => {
        const { page, errors, shot, seriousProblems, close } = await site.open(size, { context: { colorScheme } });
        await offered(page);
        const best = page.locator('.best-step .remedies li').first();
        assert.match(await best.textContent(), /Mends: Clean gas at full load, and \d+ more/);
        const change = (await best.textContent()).match(/^Add \d+ mm/)[0];
        for (const id of ['heart.full', 'heart.usual', 'warmth.loss']) {
          const told = await pointer(page, id).textContent();
          assert.ok(told.startsWith(`One of the best steps above mends this too: a${change.slice(1)}`), `${id}: ${told}`);
          assert.equal(await card(page, id).locator('.apply').count(), 0, id);
        }
        assert.equal(await pointer(page, 'heart.idle').count(), 0, 'it has the very change');
        await card(page, 'heart.full').scrollIntoViewIfNeeded();
        assert.equal(await sidewaysOverflow(page), 0);
        assert.deepEqual(await seriousProblems(), []);
        await shot(`one-cause-${colorScheme}`);

        await pointer(page, 'heart.full').getByRole('button').click();
        await reached(page, '.best-step h2');

        // What is offered for it alone is behind its heading.
        await card(page, 'heart.full').locator('.finding-head').click();
        await card(page, 'heart.full').locator('.apply').first().waitFor();
        assert.match(await card(page, 'heart.full').locator('.remedies li:has(.apply)').first().textContent(), /Mends also: /);
        await best.locator('.apply').click();
        for (const id of ['heart.full', 'heart.usual', 'warmth.loss']) await answered(page, id, 'Good');
        assert.deepEqual(errors, []);
        await close();
      });
    }
  }

  it('leads to the verdict that has the change, by the keyboard alone', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await offered(page);
    const told = await pointer(page, 'standing.tip_full').textContent();
    assert.match(told, /^What is offered at “Push at the top” mends this too: change “Base width” from/);
    await tabTo(page, 'article[data-finding="standing.tip_full"] .elsewhere button');
    await page.keyboard.press('Enter');
    await reached(page, 'article[data-finding="standing.push"] .finding-head');
    await tabTo(page, 'article[data-finding="standing.push"] .apply');
    await page.keyboard.press('Enter');
    await answered(page, 'standing.tip_full', 'Good');
    assert.deepEqual(errors, []);
    await close();
  });

  it('does not say that nothing mends what all steps mend', async () => {
    const { page, errors, shot, close } = await site.open(PHONE);
    await offered(page);
    await page.locator('.whole-way .ask').click();
    await page.locator('.whole-way[data-whole="true"]').waitFor({ timeout: 90_000 });
    const cards = await page.locator('article:not([data-verdict="Good"])').evaluateAll((all) =>
      all.map((one) => ({
        id: one.dataset.finding,
        told: one.querySelector('.elsewhere')?.textContent ?? '',
        noWay: one.querySelector('.no-way')?.textContent ?? '',
      })),
    );
    const mended = cards.filter(({ told }) => told.startsWith('All steps above together mend this.'));
    assert.ok(mended.length > 10, JSON.stringify(cards));
    assert.deepEqual(mended.filter(({ noWay }) => NO_WAY.test(noWay)), []);
    const nothing = cards.filter(({ noWay }) => NO_WAY.test(noWay));
    await pointer(page, mended.at(-1).id).scrollIntoViewIfNeeded();
    await shot('all-steps-mend');
    await pointer(page, mended.at(-1).id).getByRole('button').tap();
    await reached(page, '.best-step h2');
    await page.locator('.whole-way .apply').click();
    await answered(page, mended[0].id, 'Good');
    const after = await verdicts(page);
    for (const { id } of mended) assert.equal(after[id], 'Good', id);
    for (const { id } of nothing) assert.notEqual(after[id], 'Good', id);
    assert.deepEqual(errors, []);
    await close();
  });
});
