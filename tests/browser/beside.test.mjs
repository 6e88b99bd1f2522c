// The other design of a comparison: what was sent there and is taken back, and how it is by now.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, appIsThere, start } from './lib/app.mjs';
import { compared, enter, kept, keptWith, make, noticed, showPanel } from './lib/screen.mjs';

const WIDTH = 'base.width';

/** Three designs that differ in width; the first is open. */
async function threeSets(page) {
  await make(page, 'Set C', '920');
  await make(page, 'Set B', '910');
  await make(page, 'Set A', '900');
}

async function openSet(page, name) {
  await (await showPanel(page, 'designs')).getByRole('button', { name, exact: true }).click();
  await page.locator('header', { hasText: name }).waitFor();
}

async function compareWith(page, name) {
  const designs = await showPanel(page, 'designs');
  await designs.getByRole('button', { name: `Compare with this: ${name}`, exact: true }).click();
  await compared(page, `Compared with “${name}”`);
}

/** The width of each kept design, m, by its name. */
const widths = async (page) => {
  const designs = Object.values(await kept(page)).map((text) => JSON.parse(JSON.parse(text).design));
  return Object.fromEntries(designs.map(({ about, base }) => [about.name, base.width]));
};

describe('the other design', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('takes back what was sent from the design it went to, step by step, whatever is beside by then', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await threeSets(page);
    await enter(page, 'base.depth', '1500');
    await compareWith(page, 'Set B');
    for (const what of [/Send mine there.*Base width/, /Send mine there.*Base depth/]) {
      await page.locator('#panel-compare').getByRole('button', { name: what }).click();
    }
    await noticed(page, 'Changed “Set B”, the other design, in 2 steps.');
    const before = await widths(page);
    assert.deepEqual(before, { 'Set A': 0.9, 'Set B': 0.9, 'Set C': 0.92 });
    await compareWith(page, 'Set C');
    const undo = page.locator('.notice', { hasText: 'Changed “Set B”' }).getByRole('button', { name: 'Undo' });
    await undo.click();
    await page.locator('.notice').getByText('Changed “Set B”, the other design.', { exact: true }).waitFor();
    assert.deepEqual(await widths(page), before, 'the width is still the one that was sent');
    await undo.click();
    await undo.waitFor({ state: 'detached' });
    assert.deepEqual(await widths(page), { 'Set A': 0.9, 'Set B': 0.91, 'Set C': 0.92 });
    await compared(page, '“Set C”: ');
    assert.deepEqual(errors, []);
    await close();
  });

  it('keeps as a copy what is taken back from a design that was changed since', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await threeSets(page);
    await compareWith(page, 'Set B');
    await page.locator('#panel-compare').getByRole('button', { name: /Send mine there.*Base width/ }).click();
    await noticed(page, 'Changed “Set B”');
    await openSet(page, 'Set B');
    await enter(page, WIDTH, '930');
    await keptWith(page, '0.93');
    await page.locator('.notice', { hasText: 'Changed “Set B”' }).getByRole('button', { name: 'Undo' }).click();
    await noticed(page, '“Set B” was changed since');
    assert.deepEqual(await widths(page), { 'Set A': 0.9, 'Set B': 0.93, 'Set B (copy)': 0.91, 'Set C': 0.92 });
    assert.deepEqual(errors, []);
    await close();
  });

  it('goes on with the other design as it is now, after it was changed here or in another tab', async () => {
    const { page, context, errors, close } = await site.open(DESKTOP);
    await threeSets(page);
    await compareWith(page, 'Set B');
    await openSet(page, 'Set B');
    await compared(page, '“Set B” itself is open');
    await enter(page, WIDTH, '940');
    await keptWith(page, '0.94');
    await openSet(page, 'Set A');
    await compared(page, 'Compared with “Set B”: 1 difference');
    await showPanel(page, 'compare');
    const there = (width) => page.locator('[data-table="Changed inputs"] td', { hasText: width }).waitFor();
    await there('940 mm');

    const second = await context.newPage();
    await second.goto(site.address);
    await appIsThere(second);
    await openSet(second, 'Set B');
    await enter(second, WIDTH, '950');
    await keptWith(second, '0.95');
    await there('950 mm');
    assert.deepEqual(errors, []);
    await close();
  });
});
