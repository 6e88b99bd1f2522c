// The gas train: seen as a diagram, arranged by hand, opened by tapping, all of it by keyboard as well.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { enter, field, shareLink, showPanel, tabTo } from './lib/screen.mjs';

/** The names of the stages as the diagram draws them, the engine last. */
const stages = (page) =>
  page
    .locator('.train svg .row')
    .evaluateAll((all) => all.map((stage) => [...stage.querySelectorAll('text.name')].map(({ textContent }) => textContent).join(' ')));

/** What the diagram says at every point. */
const numbers = (page) => page.locator('.train svg text.degrees').allTextContents();

const said = (page) => page.locator('#said').textContent();

/** Waits until the stages stand in an order that holds. */
async function ordered(page, holds) {
  for (let tries = 0; tries < 50; tries += 1) {
    if (holds(await stages(page))) return;
    await page.waitForTimeout(40);
  }
  assert.fail(`The stages stand as ${await stages(page)}`);
}

describe('gas train', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('folds its table on a phone: nothing of it has to be looked for sideways', async () => {
    const { page, shot, close } = await site.open(PHONE);
    await showPanel(page, 'train');
    await page.locator('.train .chart-table > summary').click();
    const room = page.locator('.train .chart-table-room');
    const cells = room.locator('tbody td');
    await cells.first().waitFor();
    assert.equal(await room.evaluate((element) => element.scrollWidth - element.clientWidth), 0);
    const labels = await cells.evaluateAll((all) => all.map(({ dataset }) => dataset.label));
    assert.deepEqual([...new Set(labels)], ['Temperature', 'Pressure', 'Flow', 'Water']);
    await room.scrollIntoViewIfNeeded();
    await shot('table');
    await close();
  });

  for (const size of SIZES) {
    it(`moves the cyclone behind the cooler, and back by undo, on a ${size.name}`, async () => {
      const visit = await site.open(size);
      const { page } = visit;
      await showPanel(page, 'train');
      await page.locator('#diagram-open-1').waitFor();
      const first = await stages(page);
      const [cyclone, cooler] = [first[1], first[2]];
      assert.match(cyclone, /Cyclone/);
      assert.match(cooler, /cooler/i);
      const before = await numbers(page);
      assert.ok(before.length >= first.length, 'a temperature at every point');
      await visit.shot('train');
      await page.locator('#diagram-down-1').click();
      await ordered(page, (names) => names[1] === cooler && names[2] === cyclone);
      assert.match(await said(page), /Cyclone moved behind Tube cooler/);
      assert.notDeepEqual(await numbers(page), before, 'another order, another temperature');
      assert.equal(await page.evaluate(() => document.activeElement.id), 'diagram-down-2', 'the focus goes along');
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await ordered(page, (names) => names[1] === cyclone);
      assert.deepEqual(await numbers(page), before);
      assert.equal(await sidewaysOverflow(page), 0);
      assert.deepEqual(await visit.seriousProblems(), []);
      assert.deepEqual(visit.errors, []);
      await visit.close();
    });

    it(`opens a stage by a tap, and adds and removes one, on a ${size.name}`, async () => {
      const { page, errors, seriousProblems, shot, close } = await site.open(size);
      await (await field(page, 'raw_gas.dust_load')).waitFor();
      await page.locator('#item-train-0 > summary').click();
      await page.locator('[data-input="train.0.bore"]').fill('66 mm');
      const link = await shareLink(page);
      await showPanel(page, 'train');
      const count = (await stages(page)).length;
      await page.locator('#diagram-open-2').click({ position: { x: 150, y: 60 } });
      const item = page.locator('#item-train-2');
      await item.locator('[data-input="train.2.kind"]').waitFor({ state: 'visible' });
      assert.equal(await page.evaluate(() => document.activeElement.closest('details')?.id), 'item-train-2');
      assert.ok((await item.locator('> summary').boundingBox()).y < size.viewport.height, 'scrolled into view');

      await showPanel(page, 'train');
      await showPanel(page, 'train');
      await page.locator('#diagram-add-1').click();
      const kinds = page.locator('.kinds');
      await kinds.waitFor();
      await page.waitForFunction(() => document.activeElement.matches('.kinds button'));
      assert.deepEqual(await seriousProblems(), [], 'the list of kinds');
      assert.equal(await sidewaysOverflow(page), 0, 'the list of kinds');
      await shot('train-kinds');
      await kinds.locator('[data-kind="trap"]').click();
      const kind = page.locator('[data-input="train.1.kind"]');
      await kind.waitFor({ state: 'visible' });
      await page.waitForFunction(() => document.activeElement.dataset.input === 'train.1.kind');
      assert.equal(await kind.inputValue(), 'trap');
      assert.equal(await page.locator('[data-input="train.1.bore"]').inputValue(), '66', 'the bore of its neighbour');
      await showPanel(page, 'train');
      await ordered(page, (names) => names.length === count + 1 && /trap/i.test(names[1]));
      await showPanel(page, 'numbers');
      await page.locator('#item-train-1').getByRole('button', { name: /^Remove: / }).click();
      await showPanel(page, 'train');
      await ordered(page, (names) => names.length === count);
      assert.equal(await shareLink(page), link);
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('offers a cooler that was taken out with its place and with what it brings', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
    await (await field(page, 'raw_gas.dust_load')).waitFor();
    await page.locator('#item-train-2 > summary').click();
    await page.locator('#item-train-2').getByRole('button', { name: /^Remove: / }).click();
    await showPanel(page, 'verdicts');
    const place = page.locator('[aria-busy="false"] article[data-finding="breath.blower_place"] .remedies li').first();
    await place.waitFor({ timeout: 60_000 });
    assert.match(await place.innerText(), /Add a tube cooler behind cyclone in the gas train: /);
    const best = await page.locator('.best-step li').allInnerTexts();
    const coolers = best.filter((words) => /add a tube cooler/i.test(words));
    assert.equal(new Set(coolers.map((words) => words.match(/behind [a-z ]+/)?.[0])).size, coolers.length, `${best}`);
    assert.deepEqual(errors, []);
    await close();
  });

  for (const size of SIZES) {
    it(`offers the shortest move that puts the blower right, taken by one press and back by undo, on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
      await showPanel(page, 'train');
      await page.locator('#diagram-open-7').waitFor();
      const good = await stages(page);
      const blower = good[7];
      assert.match(blower, /blower/i);
      for (const place of [7, 6, 5]) {
        await page.locator(`#diagram-up-${place}`).click();
        await ordered(page, (names) => names[place - 1] === blower);
      }
      const early = await stages(page);
      await showPanel(page, 'verdicts');
      const offers = page.locator('[aria-busy="false"] article[data-finding="breath.blower_place"] .remedies li');
      const move = offers.filter({ hasText: /^Move [a-z ]+ (behind|in front of) [a-z ]+ in the gas train/ });
      await move.first().waitFor({ timeout: 60_000 });
      assert.equal(await move.count(), 1, 'one move alone');
      assert.equal(await sidewaysOverflow(page), 0);
      await move.locator('.apply').first().click();
      await showPanel(page, 'train');
      const right = (names) => names.indexOf(blower) > names.findIndex((name) => /^Filter/.test(name));
      await ordered(page, right);
      assert.equal((await stages(page)).length, early.length);
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await ordered(page, (names) => names.join() === early.join());
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('is arranged by the keyboard alone', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await page.locator('.train svg text.degrees').first().waitFor();
    const first = await stages(page);
    await tabTo(page, '#diagram-up-2');
    await page.keyboard.press('Enter');
    await ordered(page, (names) => names[1] === first[2]);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'diagram-up-1');
    await page.keyboard.press(' ');
    await ordered(page, (names) => names[0] === first[2]);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'diagram-down-0', 'at the end the other button has the focus');
    await page.keyboard.press('ControlOrMeta+z');
    await page.keyboard.press('ControlOrMeta+z');
    await ordered(page, (names) => names.join() === first.join());
    const kinds = page.locator('.kinds');
    const focused = () => page.evaluate(() => document.activeElement.dataset.kind ?? document.activeElement.id);
    const asked = () => page.waitForFunction(() => document.activeElement.matches('.kinds button:first-child'));
    await tabTo(page, '#diagram-add-2');
    await page.keyboard.press('Enter');
    await asked();
    await page.keyboard.press('ArrowUp');
    assert.equal(await focused(), 'measured', 'around the upper end');
    await page.keyboard.press('Escape');
    await kinds.waitFor({ state: 'detached' });
    await page.waitForFunction(() => document.activeElement.id === 'diagram-add-2');
    await page.keyboard.press(' ');
    await asked();
    await page.locator('#train-title').click();
    await kinds.waitFor({ state: 'detached' });
    assert.deepEqual(await stages(page), first, 'nothing is added by asking alone');
    await page.locator('#diagram-add-2').press('Enter');
    await asked();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await ordered(page, (names) => names.length === first.length + 1 && names[2] === first[1]);
    await page.waitForFunction(() => document.activeElement.dataset.input === 'train.2.kind');
    await page.locator('#undo').click();
    await ordered(page, (names) => names.join() === first.join());

    await tabTo(page, '#diagram-open-1');
    await page.keyboard.press('Enter');
    await page.locator('[data-input="train.1.kind"]').waitFor({ state: 'visible' });
    await page.waitForFunction(() => document.activeElement.closest('details')?.id === 'item-train-1');
    assert.deepEqual(errors, []);
    await close();
  });

  it('shows another load, in the units chosen, and as a table', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await showPanel(page, 'train');
    await page.locator('.train svg text.degrees').first().waitFor();
    const full = await numbers(page);
    await page.getByText('Lighting', { exact: true }).click();
    await page.locator('.train svg .flame').waitFor();
    assert.ok((await numbers(page)).length < full.length, 'no gas behind the flare');
    await page.getByText('Full', { exact: true }).click();
    await page.locator('.train svg .flame').waitFor({ state: 'detached' });
    assert.deepEqual(await numbers(page), full);
    await page.locator('.train .chart-table > summary').click();
    await page.locator('.train table td').first().waitFor();
    const cells = await page.locator('.train table td:nth-child(2)').allTextContents();
    assert.deepEqual(cells, full, 'the table says the same');
    await page.getByRole('button', { name: /inch units/i }).click();
    await page.locator('.train svg text.degrees', { hasText: '°F' }).first().waitFor();
    assert.equal(await sidewaysOverflow(page), 0);
    assert.deepEqual(errors, []);
    await close();
  });

  it('has targets for thumbs and words that can be read', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'train');
    await page.locator('.train svg text.degrees').first().waitFor();
    const found = await page.evaluate(() => {
      const svg = document.querySelector('.train svg');
      const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
      const right = svg.getBoundingClientRect().right;
      const small = [...svg.querySelectorAll('.touch')].map((area) => area.getBoundingClientRect()).filter(({ width, height }) => width < 43.5 || height < 43.5);
      const texts = [...svg.querySelectorAll('text')];
      const tiny = texts.filter((text) => parseFloat(getComputedStyle(text).fontSize) * scale < 12);
      const outside = texts.filter((text) => text.getBoundingClientRect().right > right + 1);
      return [small.length, tiny.map(({ textContent }) => textContent), outside.map(({ textContent }) => textContent)];
    });
    assert.deepEqual(found, [0, [], []]);
    await close();
  });

  it('shows the shape of a Stop under the diagram with its bar', async () => {
    for (const colorScheme of ['light', 'dark']) {
      const { page, close } = await site.open(DESKTOP, { context: { colorScheme } });
      await enter(page, 'limits.engine_gas_stop', '10 °C');
      const mark = page.locator('.train > .verdict-line.stop .mark').first();
      await mark.waitFor();
      const [ground, bar] = await mark.evaluate((mark) => [
        getComputedStyle(mark.querySelector('.mark-outline')).fill,
        getComputedStyle(mark.querySelector('.mark-sign')).stroke,
      ]);
      assert.notEqual(bar, ground, colorScheme);
      await close();
    }
  });

  it('leads from each line under the diagram to its verdict, worst first', async () => {
    const { page, close } = await site.open(DESKTOP);
    await enter(page, 'limits.engine_gas_stop', '10 °C');
    const lines = page.locator('.train > .verdict-line');
    await page.locator('.train > .verdict-line.stop').first().waitFor();
    const words = await lines.locator('.verdict').allInnerTexts();
    const rank = words.map((word) => ['Stop', "Can't tell", 'Watch'].indexOf(word.trim()));
    assert.ok(words.length > 1 && rank.every((place, at) => place >= 0 && (at === 0 || place >= rank[at - 1])), `${words}`);
    const line = lines.last();
    const question = await line.getAttribute('data-leads');
    await line.click();
    await page.waitForFunction((question) => document.activeElement.closest('article')?.dataset.finding === question, question);
    await page.locator(`article[data-finding="${question}"] .reasons`).waitFor();
    await close();
  });

  it('says at its stage why a train cannot be computed', async () => {
    const { page, close } = await site.open(DESKTOP);
    await page.locator('#diagram-open-5').click();
    const bore = page.locator('[data-input="train.5.bore"]');
    await bore.fill('10 mm');
    await page.locator('[data-input="train.5.length"]').fill('60 m');
    await page.locator('.train svg .row').nth(5).locator('text.stop').first().waitFor();
    assert.match(await page.locator('.train svg .row').nth(5).textContent(), /pressure/);
    assert.ok((await numbers(page)).length >= 5, 'what comes before stays');
    await close();
  });
});
