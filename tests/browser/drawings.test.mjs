// The drawings of the sheets: all a builder needs stands on them, no word lies on another, and a phone shows them whole.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, start } from './lib/app.mjs';
import { enter, showPanel } from './lib/screen.mjs';

/** Smallest height of a letter that is read on a phone, CSS pixels. */
const READABLE = 10;
const FRONT = '#paper .machine-from-the-front';
const ABOVE = '#paper .machine-from-above';

describe('drawings', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('tells in the front view all heights, diameters and layers, and both widths', async () => {
    const { page, close } = await site.open(DESKTOP);
    await lay(page);
    const texts = await page.locator(FRONT).evaluate(read);
    const height = (name) => {
      const told = texts.map((text) => text.match(new RegExp(`^${name} (\\d+) mm$`))).find(Boolean);
      assert.ok(told, `${name} in ${texts}`);
      return Number(told[1]);
    };
    for (const name of ['hearth wall, outside', 'body wall, outside', 'hopper, outside', 'base', 'over all', 'grate, above ground']) height(name);
    const chain = ['clearance', 'bottom', 'hearth wall', 'body wall', 'lid', 'hopper cone', 'hopper'].map(height);
    const sum = chain.reduce((one, other) => one + other);
    const top = Number(texts.find((text) => /^\d+ mm$/.test(text)).replace(' mm', ''));
    // Each is rounded by itself.
    assert.ok(Math.abs(sum - top) <= 0.5 * chain.length, `${chain} make ${sum}, over all ${top}`);
    assert.ok(texts.some((text) => /^(body wall|body wall, layer 1:) [\d.]+ mm$/.test(text)), `${texts}`);
    await close();
  });

  it('tells from above where each part stands, and width and depth of the base and over all', async () => {
    const { page, close } = await site.open(DESKTOP);
    await enter(page, 'base.vessel_x', '-30');
    await lay(page);
    const texts = await page.locator(ABOVE).evaluate(read);
    assert.ok(texts.includes('base 410 mm'), `${texts}`);
    for (const name of ['base', 'over all']) {
      assert.equal(texts.filter((text) => new RegExp(`^${name} \\d+ mm$`).test(text)).length, 2, `${name}, width and depth: ${texts}`);
    }
    assert.equal(texts[texts.indexOf('Left or right') + 1], '30 mm left', 'the vessel');
    const rows = texts.filter((text) => /^\d+ \p{L}/u.test(text) && !/^\d+ mm/.test(text)).length;
    for (let number = 1; number <= rows; number += 1) assert.ok(texts.includes(`${number}`), `a mark with ${number}`);
    assert.ok(rows > 2, `${texts}`);
    await close();
  });

  for (const [units, width, hopper] of [['metric', '410', '500'], ['inch', '26', '20'], ['metric', '1200', '80']]) {
    it(`writes no word over another in drawings on paper, ${units}, base ${width}, hopper ${hopper}`, async () => {
      const { page, close } = await site.open(DESKTOP);
      await page.getByRole('button', { name: new RegExp(`${units} units`) }).click();
      await enter(page, 'base.width', width);
      await enter(page, 'hopper.height', hopper);
      await lay(page);
      for (const drawing of [FRONT, ABOVE]) assert.deepEqual(await page.locator(drawing).evaluate(onEachOther), [], drawing);
      await close();
    });
  }

  it('shows machine and hearth whole and readable on a phone, and the other drawings larger at a touch', async () => {
    const { page, shot, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    for (const [name, whole] of [['summary', ['machine', 'hearth-section', 'hearth-from-above']], ['gas-train', []]]) {
      await page.locator(`[data-sheet="${name}"] > summary`).click();
      const figures = page.locator(`[data-sheet="${name}"] figure`);
      await figures.first().waitFor();
      for (let place = 0; place < (await figures.count()); place += 1) {
        const figure = figures.nth(place);
        const wider = () => figure.evaluate((element) => element.scrollWidth - element.clientWidth);
        const kind = await figure.locator('> svg').getAttribute('class');
        await figure.scrollIntoViewIfNeeded();
        assert.equal(await wider(), 0, kind);
        const hint = () => figure.evaluate((element) => getComputedStyle(element, '::before').content);
        if (whole.some((one) => kind.split(' ').includes(one))) {
          const { outside, smallest } = await figure.locator('> svg').evaluate(seen);
          assert.deepEqual(outside, [], kind);
          assert.ok(smallest >= READABLE, `${kind}: ${smallest} px`);
          assert.deepEqual(await figure.locator('> svg').evaluate(onEachOther), [], kind);
          assert.equal(await hint(), 'none', kind);
        } else {
          assert.match(await hint(), /Touch/, kind);
          await figure.tap();
          assert.ok((await wider()) > 200, kind);
          assert.match(await hint(), /Slide/, kind);
        }
        await shot(`phone-${kind.replaceAll(' ', '-')}`);
      }
    }
    await close();
  });
});

/** Has the page for the printer made, and shows it. */
async function lay(page) {
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({ media: 'print' });
}

/** In the page: the texts of a drawing that are seen. */
function read(svg) {
  return [...svg.querySelectorAll('text')].filter((text) => text.checkVisibility()).map((text) => text.textContent.trim());
}

/** In the page: which texts leave a drawing, and how high the letters of the smallest are. */
function seen(svg) {
  const frame = svg.getBoundingClientRect();
  const texts = [...svg.querySelectorAll('text')].filter((text) => text.checkVisibility());
  const scale = svg.getScreenCTM().a;
  return {
    outside: texts
      .filter((text) => {
        const { left, right } = text.getBoundingClientRect();
        return left < frame.left - 1 || right > frame.right + 1;
      })
      .map((text) => text.textContent),
    smallest: Math.min(...texts.map((text) => parseFloat(getComputedStyle(text).fontSize) * scale)),
  };
}

/** In the page: which texts of a drawing lie on each other, on a slash of a dimension, or outside of it. */
function onEachOther(svg) {
  const frame = svg.getBoundingClientRect();
  const scale = svg.getScreenCTM().a;
  const texts = [...svg.querySelectorAll('text')].filter((text) => text.checkVisibility());
  const boxes = texts.map((text) => {
    const { left, right, top, bottom } = text.getBoundingClientRect();
    const inset = 0.16 * parseFloat(getComputedStyle(text).fontSize) * scale;
    return { name: text.textContent, left, right, top: top + inset, bottom: bottom - inset };
  });
  // A cross of a part is made of lines along the axes, which have no breadth or no height.
  const slashes = [...svg.querySelectorAll('.dimension-end')]
    .map((slash) => ({ name: 'slash', ...slash.getBoundingClientRect().toJSON() }))
    .filter(({ width, height }) => width > 0 && height > 0);
  const overlap = (one, other) =>
    Math.min(one.right, other.right) - Math.max(one.left, other.left) > 1 &&
    Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 1;
  const outside = boxes
    .filter(({ left, right, top, bottom }) => left < frame.left - 1 || right > frame.right + 1 || top < frame.top - 1 || bottom > frame.bottom + 1)
    .map(({ name }) => `${name} outside`);
  return boxes
    .flatMap((one, place) => [...boxes.slice(place + 1), ...slashes].filter((other) => overlap(one, other)).map((other) => `${one.name} on ${other.name}`))
    .concat(outside);
}
