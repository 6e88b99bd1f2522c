// What the charts say where a person reads them: under the mouse, by the slider, and as a table.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { showPanel } from './lib/screen.mjs';

/** A chart that is in view, with its words. */
async function chartOf(page, name) {
  await showPanel(page, 'charts');
  const chart = page.locator(`figure.chart[data-chart="${name}"]`);
  await chart.scrollIntoViewIfNeeded();
  await chart.locator('.chart-body:not([hidden])').waitFor();
  return chart;
}

/** The rows of its table, each as the texts of its cells. */
async function rowsOf(chart) {
  await chart.locator('.chart-table > summary').click();
  await chart.locator('tbody tr').first().waitFor();
  return chart.locator('tbody tr').evaluateAll((rows) => rows.map((row) => [...row.cells].map(({ textContent }) => textContent)));
}

describe('charts', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('say of a load at which no gas burns that none does', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    const chart = await chartOf(page, 'load');
    const slider = chart.locator('input[type="range"]');
    await slider.fill('0');
    const none = 'no gas that burns';
    assert.match(await chart.locator('.chart-says').innerText(), new RegExp(`: ${none}$`));
    assert.match(await slider.getAttribute('aria-valuetext'), new RegExp(`: ${none}$`));
    const rows = await rowsOf(chart);
    assert.equal(rows[0][1], none);
    assert.match(rows.at(-1)[1], /°C$/);
    assert.deepEqual(errors, []);
    await close();
  });

  for (const size of SIZES) {
    it(`have a row for the design as it is, for where it passes and for the end, on a ${size.name}`, async () => {
      const { page, shot, close } = await site.open(size);
      const chart = await chartOf(page, 'tip-angle');
      const words = await chart.locator('.chart-words').innerText();
      const [, now, enough] = /^At (.+) it tips .* reached from (.+)\.$/.exec(words);
      const rows = await rowsOf(chart);
      const places = rows.map(([place]) => place);
      assert.ok(places.includes(`${now} (now)`), `${places}`);
      assert.ok(places.includes(`${enough} (stands from here)`), `${places}`);
      const last = await chart.locator('input[type="range"]').getAttribute('max');
      await chart.locator('input[type="range"]').fill(last);
      const said = await chart.locator('.chart-says').innerText();
      assert.ok(said.startsWith(`Base width ${places.at(-1)}: `), `${said}, ${places}`);
      assert.equal(await sidewaysOverflow(page), 0);
      await chart.locator('.chart-table').scrollIntoViewIfNeeded();
      await shot('chart-table');
      await close();
    });

    it(`tell one unit in each column, and which of the hearth's numbers fail, on a ${size.name}`, async () => {
      const { page, shot, close } = await site.open(size);
      const rows = await rowsOf(await chartOf(page, 'thickness'));
      const units = new Set(rows.map((cells) => cells[1].replace(/^[\d.\s\u202f]+/, '')));
      assert.equal(units.size, 1, `${[...units]}`);
      const table = page.locator('.hearth-makes table').first();
      await table.scrollIntoViewIfNeeded();
      const failing = await table.locator('td .verdict').allInnerTexts();
      assert.ok(failing.length > 0);
      for (const word of failing) assert.match(word.trim(), /^(Stop|Watch)$/);
      const plain = await table.locator('tbody tr').last().locator('td').evaluateAll((cells) => cells.map((cell) => [cell.querySelector('.verdict'), getComputedStyle(cell).fontWeight]));
      assert.ok(plain.every(([verdict, weight]) => verdict === null && Number(weight) < 600), `${plain}`);
      assert.equal(await sidewaysOverflow(page), 0);
      await shot('hearth-table');
      await close();
    });
  }

  it('are read where the mouse is, and keep what was read before once it has left', async () => {
    const { page, close } = await site.open(DESKTOP);
    const chart = await chartOf(page, 'tip-angle');
    const canvas = chart.locator('canvas');
    const says = () => chart.locator('.chart-says').innerText();
    await canvas.scrollIntoViewIfNeeded();
    const before = await says();
    const { x, y, width, height } = await canvas.boundingBox();
    // It is drawn with a later frame, before which there is nothing to read.
    for (let tries = 0; tries < 50 && (await says()) === before; tries += 1) {
      await page.waitForTimeout(100);
      await page.mouse.move(x + 0.4 * width, y + 0.5 * height);
      await page.mouse.move(x + 0.5 * width, y + 0.5 * height);
    }
    assert.notEqual(await says(), before);
    const hovered = await says();
    await page.mouse.move(x + 0.7 * width, y + 0.5 * height);
    await page.waitForFunction((before) => document.querySelector('[data-chart="tip-angle"] .chart-says').innerText !== before, hovered);
    await page.mouse.move(x + 0.7 * width, y - 20);
    await page.waitForFunction((before) => document.querySelector('[data-chart="tip-angle"] .chart-says').innerText === before, before);
    await page.mouse.move(x + 0.6 * width, y + 0.5 * height);
    await page.mouse.down();
    await page.mouse.up();
    const pressed = await says();
    await page.mouse.move(x + 0.3 * width, y + 0.6 * height);
    await page.mouse.move(x + 0.3 * width, y + height + 20);
    await page.waitForTimeout(100);
    assert.equal(await says(), pressed, 'what was pressed stays on the way to the button');
    await close();
  });
});
