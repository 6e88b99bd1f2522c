// What is taken over from another design, what stays one's own, and what a helper sees before an answer is sent.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, SIZES, appIsThere, sidewaysOverflow, start } from './lib/app.mjs';
import { compared, enter, field, keptWith, shareLink, showPanel } from './lib/screen.mjs';

const WIDTH = 'base.width';
const NAME = 'about.name';
const NOTE = 'about.note';

const fragment = (link) => link.slice(link.indexOf('#') + 1);

const heads = (page) => page.locator('[data-table="Changed inputs"]').first().locator('thead th').allTextContents();

describe('taking over', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`keeps the own name and note when everything of another design is used on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      await enter(page, NAME, 'First');
      await enter(page, NOTE, 'Of the first.');
      await enter(page, WIDTH, '900');
      await keptWith(page, '0.9');
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'Copy this design' }).click();
      await keptWith(page, 'First (copy)');
      await enter(page, NAME, 'Second');
      await enter(page, NOTE, 'My own note.');
      await enter(page, WIDTH, '640');
      await keptWith(page, '0.64');
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare with this: First', exact: true }).click();
      await compared(page, 'Compared with “First”: 1 difference, and another note');
      const panel = await showPanel(page, 'compare');
      assert.equal(await panel.getByRole('button', { name: /\bName from “/i }).count(), 0, 'names tell designs apart');
      await panel.getByText('Your design keeps its own name and note.').waitFor();
      await panel.getByRole('button', { name: 'Use everything in the other design' }).click();
      await compared(page, 'only another note');
      assert.equal(await panel.getByRole('button', { name: 'Use everything in the other design' }).count(), 0);
      assert.equal(await (await field(page, WIDTH)).inputValue(), '900');
      assert.equal(await (await field(page, NAME)).inputValue(), 'Second');
      assert.equal(await (await field(page, NOTE)).inputValue(), 'My own note.');

      // The note is given where it is asked for.
      await (await showPanel(page, 'compare')).getByRole('button', { name: /^Use this value: .*note/i }).click();
      await compared(page, '0 differences');
      assert.equal(await (await field(page, NOTE)).inputValue(), 'Of the first.');
      assert.deepEqual(errors, []);
      await close();
    });

    it(`shows a helper what the answer changes before it is sent on a ${size.name}`, async () => {
      const asking = await site.open(size);
      await enter(asking.page, NAME, 'Asked about');
      const link = fragment(await shareLink(asking.page));
      await asking.close();
      const visit = await site.open(size, { fragment: link });
      const { page, errors, close } = visit;
      const designs = await showPanel(page, 'designs');
      const show = designs.getByRole('button', { name: 'Show the changes' });
      await designs.locator('.answer').waitFor();
      assert.equal(await show.count(), 0, 'nothing is changed yet');
      await enter(page, WIDTH, '1111');
      await showPanel(page, 'designs');
      await show.click();
      await compared(page, 'Compared with “Asked about” as the link had it: 1 change');
      assert.deepEqual(await heads(page), ['What', 'From the link', 'Your answer', 'Difference']);
      const panel = page.locator('#panel-compare');
      await panel.getByText('Better and worse are said of “Your answer”.').waitFor();
      assert.match(await panel.locator('[data-table="Changed inputs"] tbody').innerText(), /410[\s\S]*1111[\s\S]*\+701 mm/);
      assert.equal(await sidewaysOverflow(page), 0);
      assert.deepEqual(await visit.seriousProblems(), []);
      await visit.shot('changes-of-an-answer');
      await keptWith(page, '1.111');
      await page.reload();
      await appIsThere(page);
      await compared(page, 'as the link had it: 1 change');
      await (await showPanel(page, 'compare')).getByRole('button', { name: 'Put all back' }).click();
      await compared(page, '0 changes');

      // It is nothing to compare another design with.
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
      await page.locator('.comparison-bar').waitFor({ state: 'detached' });
      assert.deepEqual(errors, []);
      await close();
    });

    it(`tells of an answer first what it changes on a ${size.name}`, async () => {
      const asking = await site.open(size);
      await enter(asking.page, NAME, 'Asked about');
      const link = fragment(await shareLink(asking.page));
      await asking.close();
      const helper = await site.open(size, { fragment: link });
      await enter(helper.page, WIDTH, '1111');
      const designs = await showPanel(helper.page, 'designs');
      await designs.locator('.answer', { hasText: '1 change.' }).waitFor();
      const answer = fragment(await designs.locator('#answer-link').inputValue());
      await helper.close();
      const { page, errors, shot, close } = await site.open(size, { fragment: answer });
      await compared(page, 'Answer: 1 change');
      const order = await page.locator('#panel-compare h3').allTextContents();
      assert.deepEqual(order, ['Changed inputs', 'Verdicts', 'Numbers']);
      await page.getByRole('button', { name: 'Use everything in the answer' }).waitFor();
      await shot('answer-inputs-first');
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('heads the numbers with a question and how many they are, and tells money with its currency', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
    await enter(page, NAME, 'Improved');
    await keptWith(page, 'Improved');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As first drawn' }).click();
    await enter(page, NAME, 'First');
    await keptWith(page, 'First');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare with this: Improved', exact: true }).click();
    await compared(page, 'differences');
    const folds = page.locator('#panel-compare details.differing > summary');
    const told = await folds.allTextContents();
    assert.ok(told.some((text) => /^Will it stand\? \d+ numbers$/.test(text)), told.join());
    assert.ok(told.every((text) => !text.includes('?:')), told.join());
    const cost = page.locator('#panel-compare details[data-fold="What does it cost?"]');
    await cost.locator('summary').click();
    await cost.getByText('Cost, low, in credits').waitFor();
    assert.deepEqual(errors, []);
    await close();
  });
});
