// Finding a number of the form by words.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { showPanel } from './lib/screen.mjs';

const SEARCH = '#find-number';

/** The paths of what is listed. */
const listed = (page) => page.locator('.found button').evaluateAll((all) => all.map(({ dataset }) => dataset.leadsTo));

const focusedOn = (page, path) => page.waitForFunction((wanted) => document.activeElement.dataset.input === wanted, path);

/** What was led to, clear of what stays in view above and below. */
const isInSight = (page, path) =>
  page.waitForFunction((wanted) => {
    const field = document.querySelector(`[data-input="${wanted}"]`);
    const { left, width, top, height } = field.getBoundingClientRect();
    return field.contains(document.elementFromPoint(left + width / 2, top + height / 2));
  }, path);

describe('finding a number', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`lists what matches by label, meaning and value, and leads there on a ${size.name}`, async () => {
      const visit = await site.open(size);
      const { page, errors, close } = visit;
      await showPanel(page, 'numbers');
      await page.locator(SEARCH).fill('compression');
      await page.locator('#find-told', { hasText: /^\d+ found$/ }).waitFor();
      assert.equal((await listed(page))[0], 'engine.compression_ratio');
      const first = page.locator('.found button').first();
      assert.match(await first.innerText(), /Compression ratio[\s\S]*8\.5[\s\S]*data sheet/i);
      const sizes = await page
        .locator('.find button, .find input')
        .evaluateAll((all) => all.map((one) => one.getBoundingClientRect()).map(({ width, height }) => Math.min(width, height)));
      assert.ok(sizes.length > 2 && sizes.every((least) => least >= 44), `${sizes}`);
      assert.equal(await sidewaysOverflow(page), 0);
      assert.deepEqual(await visit.seriousProblems(), []);
      await visit.shot('find-number');
      await first.click();
      await focusedOn(page, 'engine.compression_ratio');
      await isInSight(page, 'engine.compression_ratio');
      assert.equal(await page.locator('#group-gas').evaluate(({ open }) => open), true);
      assert.equal(await page.locator(SEARCH).inputValue(), '');
      assert.deepEqual(await listed(page), []);
      assert.deepEqual(errors, []);
      await close();
    });

    it(`leads into an item of a list on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      await showPanel(page, 'numbers');
      await page.locator(SEARCH).fill('glow plug cable');
      const wanted = 'loads.2.cable';
      await page.locator(`.found [data-leads-to="${wanted}"]`).click();
      await focusedOn(page, wanted);
      await isInSight(page, wanted);
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('is used with the keyboard alone', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await showPanel(page, 'numbers');
    const search = page.locator(SEARCH);
    await search.focus();
    await page.keyboard.type('peukert');
    await page.locator('.found button').first().waitFor();
    await page.keyboard.press('Enter');
    await focusedOn(page, 'battery.peukert');
    await search.fill('width');
    await page.locator('.found button').nth(1).waitFor();
    const second = (await listed(page))[1];
    await search.press('ArrowDown');
    await page.waitForFunction(() => document.activeElement.matches('.found li:first-child button'));
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await focusedOn(page, second);
    await search.fill('width');
    await search.press('Escape');
    assert.equal(await search.inputValue(), '');
    assert.deepEqual(errors, []);
    await close();
  });

  it('says when nothing is found and when there is more than it lists', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await showPanel(page, 'numbers');
    const told = page.locator('#find-told');
    await page.locator(SEARCH).fill('zzzz');
    await told.filter({ hasText: 'Nothing found' }).waitFor();
    await page.getByRole('button', { name: /^Clear/ }).click();
    await page.waitForFunction((selector) => document.activeElement.matches(selector), SEARCH);
    assert.equal(await told.innerText(), '');
    await page.locator(SEARCH).fill('th');
    await told.filter({ hasText: /found, the first 20 listed/ }).waitFor();
    assert.equal((await listed(page)).length, 20);
    await page.locator(SEARCH).fill('t');
    await told.filter({ hasText: /^$/ }).waitFor({ state: 'attached' });
    assert.deepEqual(await listed(page), []);
    assert.deepEqual(errors, []);
    await close();
  });
});
