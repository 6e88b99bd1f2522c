// How sure the verdicts are, the plus-minus behind it, and the steps that mend most: single ones, or two together.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { answered, enter, field, showPanel, verdicts } from './lib/screen.mjs';

const CASES = '2000';
const TIMEOUT = { timeout: 60_000 };

/** Asks how sure it is, waits for the answer and gives what is said of each verdict. */
async function ask(page) {
  await showPanel(page, 'verdicts');
  await page.getByRole('button', { name: 'How sure is this?' }).click();
  await page.waitForSelector(`.how-sure[data-cases="${CASES}"]`, TIMEOUT);
  return page
    .locator('article[data-finding]')
    .evaluateAll((all) => Object.fromEntries(all.map((one) => [one.dataset.finding, one.querySelector('.sure').textContent])));
}

const stops = async (page) => Object.values(await verdicts(page)).filter((word) => word === 'Stop').length;

describe('how sure', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`says for each verdict in how many cases it passes, on a ${size.name}`, async () => {
      const { page, errors, strays, shot, close } = await site.open(size);
      const said = await ask(page);
      assert.ok(Object.keys(said).length > 20);
      for (const [question, words] of Object.entries(said)) assert.match(words, /^Passes in /, question);
      assert.match(await page.locator('.how-sure [role=status]').textContent(), /2000 cases.*Measure first/);
      assert.ok(Object.values(said).some((words) => / What moves it most: /.test(words)));
      const measures = page.locator('.how-sure .to-measure button');
      assert.ok((await measures.count()) > 1);
      assert.equal(await sidewaysOverflow(page), 0);
      await page.locator('.how-sure').scrollIntoViewIfNeeded();
      await shot('how-sure');
      await measures.first().click();
      await page.waitForFunction(() => document.activeElement.closest('[data-input], .field') !== null);
      assert.deepEqual([errors, strays], [[], []]);
      await close();
    });

    it(`offers the step that mends most, and takes it back, on a ${size.name}`, async () => {
      const { page, errors, shot, close } = await site.open(size);
      await showPanel(page, 'verdicts');
      const before = await stops(page);
      const step = page.locator('.best-step li').first();
      await step.waitFor(TIMEOUT);
      await step.scrollIntoViewIfNeeded();
      await shot('best-step');
      const said = await step.textContent();
      const [, of, left] = /(\d+) → (\d+) Stops?/.exec(said) ?? [];
      assert.equal(Number(of), before, said);
      assert.match(said, /^(Two changes together: )?(Add|Change|Have|Make|Move|Set) /, 'an order');
      await step.getByRole('button').click();
      await page.waitForFunction(
        (wanted) => document.querySelectorAll('article[data-verdict="Stop"]').length === wanted,
        Number(left),
      );
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await page.waitForFunction((wanted) => document.querySelectorAll('article[data-verdict="Stop"]').length === wanted, before);
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('offers two changes where none is enough alone, takes both at one tap and takes both back at one', async () => {
    const { page, errors, strays, shot, close } = await site.open(PHONE);
    await showPanel(page, 'verdicts');
    const pair = page.locator('[aria-busy="false"] article[data-verdict="Stop"] [data-pair]').first();
    await pair.waitFor(TIMEOUT);
    const finding = page.locator('article[data-verdict="Stop"]', { has: page.locator('[data-pair]') }).first();
    const question = await finding.getAttribute('data-finding');
    assert.match(await finding.locator('p.no-way').textContent(), /two together are:$/);
    assert.match(await pair.textContent(), /; and .*Apply both/);
    await pair.scrollIntoViewIfNeeded();
    assert.equal(await sidewaysOverflow(page), 0);
    await shot('two-changes');
    const before = await verdicts(page);
    await pair.getByRole('button', { name: 'Apply both' }).tap();
    await answered(page, question, 'Good');
    await page.getByRole('button', { name: 'Undo', exact: true }).tap();
    await answered(page, question, 'Stop');
    assert.deepEqual(await verdicts(page), before);
    assert.deepEqual([errors, strays], [[], []]);
    await close();
  });

  it('finds the same two changes without workers', async () => {
    const offered = async (options) => {
      const { page, close } = await site.open(DESKTOP, options);
      // What the build found is for the first drawing alone.
      await enter(page, 'base.width', '420');
      await page.locator('[aria-busy="false"] [data-pair]').first().waitFor(TIMEOUT);
      const words = await page.locator('[data-pair]').allTextContents();
      await close();
      return words;
    };
    const noWorkers = (page) =>
      page.addInitScript(() => {
        delete globalThis.Worker;
      });
    assert.deepEqual(await offered({ before: noWorkers }), await offered());
  });

  it('gives the same answer without workers', async () => {
    const beside = await site.open(DESKTOP);
    const wanted = await ask(beside.page);
    await beside.close();
    const noWorkers = (page) =>
      page.addInitScript(() => {
        delete globalThis.Worker;
      });
    const alone = await site.open(DESKTOP, { before: noWorkers });
    assert.deepEqual(await ask(alone.page), wanted);
    assert.deepEqual(alone.errors, []);
    await alone.close();
  });

  it('goes on by itself when the worker does not start', async () => {
    const noFile = (page) => page.route('**/worker.js', (route) => route.abort());
    const { page, close } = await site.open(DESKTOP, { before: noFile });
    assert.match(Object.values(await ask(page))[0], /^Passes in /);
    await close();
  });

  it('can be stopped, and forgets its answer when the design changes', async () => {
    const { page, close } = await site.open(DESKTOP);
    await page.getByRole('button', { name: 'How sure is this?' }).click();
    await page.getByRole('button', { name: 'Cancel', exact: true }).click();
    await page.getByRole('button', { name: 'How sure is this?' }).waitFor();
    await ask(page);
    await (await field(page, 'base.width')).fill('700');
    await page.waitForFunction(() => [...document.querySelectorAll('.sure')].every((one) => one.textContent === ''));
    await close();
  });

  it('takes an own plus-minus, one undo step, and keeps it', async () => {
    const { page, errors, shot, close } = await site.open(PHONE);
    await (await field(page, 'fuel.moisture')).focus();
    const box = page.locator('.field', { has: page.locator('[data-input="fuel.moisture"]') });
    await box.locator('summary').click();
    const entry = box.locator('[data-spread="fuel.moisture"]');
    await entry.fill('1');
    await entry.press('Enter');
    await box.getByText(/Taken as 11 % to 13 %/).waitFor();
    await shot('plus-minus');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await page.waitForFunction(() => document.querySelector('[data-spread="fuel.moisture"]')?.value === '');
    assert.deepEqual(errors, []);
    await close();
  });
});
