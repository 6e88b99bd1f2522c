// Fields of the form: what stands beside a price, and how many stops the Tab key makes.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, start } from './lib/app.mjs';
import { enter, field } from './lib/screen.mjs';

describe('fields', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('shows the currency beside a price as the unit beside a length, and takes it when it is typed', async () => {
    const { page, errors, close } = await site.open(PHONE);
    const unit = async (path) => {
      await field(page, path);
      return (await page.locator(`.entry:has([data-input="${path}"]) .unit`).innerText()).trim();
    };
    assert.equal(await unit('cost.budget'), 'credits');
    assert.equal(await unit('cost.mild_steel'), 'credits per kg');
    await enter(page, 'cost.currency', '€');
    assert.equal(await unit('cost.budget'), '€');
    assert.equal(await unit('cost.mild_steel'), '€ per kg');
    await enter(page, 'cost.budget', '450 €');
    const budget = await field(page, 'cost.budget');
    assert.equal(await budget.getAttribute('aria-invalid'), null);
    assert.equal(await budget.inputValue(), '450 €', 'what was typed stays');
    await enter(page, 'cost.currency', '');
    assert.equal(await unit('cost.mild_steel'), 'per kg');
    assert.equal(await unit('base.width'), 'mm');
    assert.deepEqual(errors, []);
    await close();
  });

  it('makes one stop at each number for the Tab key, and opens the plus-minus by a key', async () => {
    const { page, errors, seriousProblems, close } = await site.open(DESKTOP);
    const width = await field(page, 'base.width');
    const focused = (selector) => page.waitForFunction((wanted) => document.activeElement.matches(wanted), selector);
    await width.focus();
    await page.keyboard.press('Tab');
    await focused('[data-input]:not([data-input="base.width"])');
    await page.keyboard.press('Shift+Tab');
    await focused('[data-input="base.width"]');
    assert.equal(await width.getAttribute('aria-keyshortcuts'), 'Alt+ArrowDown');
    await page.keyboard.press('Alt+ArrowDown');
    await focused('[data-spread="base.width"]');
    await page.keyboard.type('5');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Shift+Tab');
    await focused('[data-spread="base.width"]');
    assert.equal(await page.evaluate(() => document.activeElement.value), '5');
    assert.deepEqual(await seriousProblems(), []);
    // While it is open its heading is a stop, so that it can be closed.
    await page.keyboard.press('Shift+Tab');
    await focused('.plus-minus > summary');
    await page.keyboard.press('Enter');
    await page.locator('[data-spread="base.width"]').waitFor({ state: 'detached' });
    await page.keyboard.press('Shift+Tab');
    await focused('[data-input="base.width"]');
    await page.keyboard.press('Tab');
    await focused('[data-input]:not([data-input="base.width"])');
    assert.deepEqual(errors, []);
    await close();
  });
});
