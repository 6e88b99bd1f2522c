// The drawn machine fills its place, level and gone over; a finger finds its parts; and it can be seen as large as the window.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { enter, showPanel } from './lib/screen.mjs';

const TABLET = { ...PHONE, name: 'tablet', viewport: { width: 820, height: 1180 } };
const WIDE = { name: 'wide-desk', viewport: { width: 1920, height: 1080 } };
const FIGURE = '.bench .stays > .drawing > svg';

describe('the machine', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const [size, least] of [[PHONE, 180], [TABLET, 320], [DESKTOP, 390]]) {
    it(`fills its place on a ${size.name}`, async () => {
      const { page, close } = await site.open(size);
      const { machine, figure } = await page.locator(FIGURE).evaluate(sizes);
      assert.ok(machine.height >= least, `${machine.height} of ${figure.height} px`);
      await close();
    });
  }

  for (const size of [PHONE, DESKTOP, WIDE]) {
    it(`stays within its place when it goes over on a ${size.name}`, async () => {
      const { page, shot, close } = await site.open(size);
      for (const view of ['Front', 'Side']) {
        await page.getByRole('button', { name: view, exact: true }).click();
        for (const slope of [-30, -14, -6, 6, 14, 30]) {
          await page.locator('#tilt').fill(`${slope}`);
          const { machine, figure, ring } = await page.locator(FIGURE).evaluate(sizes);
          for (const [side, sign] of [['left', 1], ['top', 1], ['right', -1], ['bottom', -1]]) {
            assert.ok(sign * (machine[side] - figure[side]) >= -1, `${view} at ${slope}°, ${side}: ${machine[side]} of ${figure[side]}`);
          }
          assert.ok(ring.left >= figure.left - 1 && ring.right <= figure.right + 1 && ring.bottom <= figure.bottom + 1, `the ring at ${slope}°`);
          await shot(`${view}-${slope}`);
        }
        await page.locator('#tilt').fill('0');
      }
      await close();
    });
  }

  it('tells of the side that is seen at which slope it tips there', async () => {
    const { page, close } = await site.open(DESKTOP);
    const told = () => page.locator(`${FIGURE} text:visible`, { hasText: /^tips at/ }).allTextContents();
    const [front] = await told();
    await page.getByRole('button', { name: 'Side', exact: true }).click();
    await page.waitForFunction((front) => ![...document.querySelectorAll('.drawing text')].some(({ textContent }) => textContent === front), front);
    const [side] = await told();
    const degrees = (text) => Number.parseFloat(text.replace('tips at ', ''));
    assert.ok(degrees(side) > degrees(front), `${side}, from the front ${front}`);
    const beside = await page.locator(`${FIGURE} text:visible`, { hasText: /^to the / }).first().textContent();
    assert.ok(beside.endsWith(front.replace('tips at ', '')), 'the weakest side is told by its name');
    await page.locator('#tilt').fill('2');
    const stands = await page.locator(`${FIGURE} text:visible`, { hasText: 'this way' }).textContent();
    const ways = [stands];
    await page.locator('#tilt').fill('-2');
    ways.push(await page.locator(`${FIGURE} text:visible`, { hasText: 'this way' }).textContent());
    assert.ok(ways.some((text) => text.includes(side.replace('tips at ', ''))), `${ways} for ${side}`);
    await close();
  });

  it('marks from above each side over which it tips too soon', async () => {
    const { page, close } = await site.open(DESKTOP);
    await page.getByRole('button', { name: 'Above', exact: true }).click();
    const sides = page.locator(`${FIGURE} text:visible`, { hasText: /tips at/ });
    await page.waitForFunction((figure) => [...document.querySelectorAll(`${figure} text`)].filter(({ textContent }) => /tips at/.test(textContent)).length >= 4, FIGURE);
    const told = await sides.evaluateAll((all) => all.map((text) => ({ angle: Number.parseFloat(/[\d.]+(?=°)/.exec(text.textContent)[0]), fails: /stop|watch/.test(text.getAttribute('class')) })));
    const wanted = 15;
    assert.ok(told.filter(({ angle }) => angle < wanted).length >= 2, JSON.stringify(told));
    for (const { angle, fails } of told) assert.equal(fails, angle < wanted, JSON.stringify(told));
    await close();
  });

  it('is found by a finger: walls before what they enclose, and nothing over a part takes its tap', async () => {
    const { page, errors, close } = await site.open(PHONE);
    const told = page.locator('.touched-piece');
    const tap = async (x, y) => {
      await page.touchscreen.tap(x, y);
      await told.waitFor();
      return (await told.innerText()).split(':')[0];
    };
    const wall = await page.locator('[data-piece^="hearth_layers."], [data-piece="hearth_wall"]').first().boundingBox();
    const middle = wall.y + wall.height / 2;
    for (const x of [wall.x - 4, wall.x + 1, wall.x + wall.width - 1, wall.x + wall.width + 4]) {
      assert.doesNotMatch(await tap(x, middle), /[Cc]har|[Ww]ood in/, `at ${x - wall.x} of ${wall.width} px`);
    }
    // Under the ring of a layer there is a wall too.
    const ring = await page.locator('.grip-layer .grip-dot').first().boundingBox();
    assert.notEqual(await tap(ring.x + ring.width / 2, ring.y + ring.height / 2), '');
    assert.deepEqual(errors, []);
    await close();
  });

  it('says once that its rings are dragged', async () => {
    const { page, close } = await site.open(PHONE);
    assert.deepEqual(await page.locator(`${FIGURE} text:visible`, { hasText: /^drag$/ }).allTextContents(), ['drag']);
    await close();
  });

  for (const size of SIZES) {
    it(`is seen as large as the window, and is left for what is changed, on a ${size.name}`, async () => {
      const visit = await site.open(size);
      const { page } = visit;
      const dialog = page.getByRole('dialog', { name: 'The machine, larger' });
      const open = page.getByRole('button', { name: 'The machine, larger' });
      const { width, height } = await open.boundingBox();
      assert.ok(width >= 44 && height >= 44, `${width} × ${height}`);
      await open.click();
      await dialog.waitFor();
      await page.waitForFunction(() => document.activeElement.closest('dialog'));
      assert.deepEqual(await visit.seriousProblems(), []);
      assert.equal(await sidewaysOverflow(page), 0);
      const large = await dialog.locator('svg').evaluate(sizes);
      const small = await page.locator(FIGURE).evaluate(sizes);
      assert.ok(large.machine.height > 1.4 * small.machine.height, `${large.machine.height}, not ${small.machine.height} px`);
      for (const button of await dialog.getByRole('button').all()) {
        const box = await button.boundingBox();
        if (!(await button.evaluate((one) => one instanceof SVGElement))) assert.ok(box.width >= 44 && box.height >= 44, await button.textContent());
      }
      await visit.shot('larger');
      await dialog.getByRole('button', { name: 'Hearth', exact: true }).click();
      await visit.shot('larger-hearth');
      const layer = dialog.locator('[data-piece^="hearth_layers."]').first();
      const { x, y, height: high } = await layer.boundingBox();
      await page.mouse.click(x + 4, y + high / 2);
      await dialog.locator('.touched-piece').waitFor();

      await page.keyboard.press('Escape');
      await dialog.waitFor({ state: 'hidden' });
      await page.waitForFunction(() => document.activeElement.closest('.larger-at-hand'));
      await open.click();
      await dialog.getByRole('button', { name: 'Close', exact: true }).click();
      await dialog.waitFor({ state: 'hidden' });
      await open.click();
      await dialog.locator('[data-piece]').first().focus();
      await page.keyboard.press('Enter');
      await dialog.locator('.touched-piece').getByRole('button', { name: 'Change' }).click();
      await dialog.waitFor({ state: 'hidden' });
      await page.waitForFunction(() => document.activeElement.matches('#panel-numbers summary'));
      assert.deepEqual(visit.errors, []);
      await visit.close();
    });
  }

  it('is followed at once by what mends it on a phone', async () => {
    const { page, close } = await site.open(PHONE);
    const bar = await page.locator('.panel-bar').boundingBox();
    const apply = await page.locator('.best-step .apply').first().boundingBox();
    assert.ok(apply.y + apply.height <= bar.y, `${apply.y + apply.height}, the bar at ${bar.y}`);
    const words = await page.locator('.panel-bar button:not([hidden])').evaluateAll((all) =>
      all.map((one) => [Number.parseFloat(getComputedStyle(one).fontSize), one.scrollWidth - one.clientWidth]),
    );
    for (const [size, over] of words) assert.ok(size >= 13 && over <= 0, `${size} px, ${over} px too wide`);
    const heights = await page.locator('.panel-bar button:not([hidden])').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top));
    assert.equal(new Set(heights).size, 1, 'in one row');
    await close();
  });

  it('gives way to the first questions on a phone, whose way on stays in sight', async () => {
    const { page, shot, close } = await site.open(PHONE);
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
    for (let number = 1; number <= 5; number += 1) {
      await page.locator('.guide .count', { hasText: `Question ${number} of 5` }).waitFor();
      for (const gone of [FIGURE, '#tilt', '.summary .tally']) assert.equal(await page.locator(gone).first().isVisible(), false, gone);
      await page.waitForTimeout(100);
      const bar = await page.locator('.panel-bar').boundingBox();
      for (const name of number > 1 ? ['Back', number < 5 ? 'Next' : 'Finish'] : ['Next']) {
        const box = await page.locator('.guide').getByRole('button', { name, exact: true }).boundingBox();
        assert.ok(box.y >= 0 && box.y + box.height <= bar.y + 1, `${name} of question ${number}: ${box.y}, the bar at ${bar.y}`);
      }
      await shot(`way-on-${number}`);
      if (number < 5) await page.locator('.guide').getByRole('button', { name: 'Next', exact: true }).click();
    }
    await close();
  });

  it('says nothing of a field that only waits, until it is left', async () => {
    const { page, close } = await site.open(DESKTOP);
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
    const next = page.locator('.guide').getByRole('button', { name: 'Next', exact: true });
    for (let number = 1; number < 5; number += 1) await next.click();
    await page.getByLabel('Throat and fire tube are built').check();
    await page.locator('[data-input="hearth.throat_diameter"]').waitFor();
    assert.equal(await page.locator('.stale').count(), 0);
    assert.equal(await page.locator('.guide .wrong').count(), 0);
    await page.locator('[data-input="hearth.throat_diameter"]').focus();
    await page.keyboard.press('Tab');
    await page.locator('.guide .wrong', { hasText: 'Not filled in yet: type what you measured.' }).waitFor();
    assert.equal(await page.locator('.guide .wrong').count(), 1, 'only of the one that was left');
    await close();
  });

  it('keeps numbers and their units in one piece in lists and sheets on a phone', async () => {
    const { page, close } = await site.open(PHONE);
    await enter(page, 'base.width', '900');
    await showPanel(page, 'workshop');
    await page.locator('[data-sheet="summary"] > summary').click();
    await page.locator('[data-sheet="summary"] td.value').first().waitFor();
    const torn = await page.locator('[data-sheet="summary"] td.value').evaluateAll((all) =>
      all
        .filter((one) => {
          const words = document.createRange();
          words.selectNodeContents(one);
          return new Set([...words.getClientRects()].map(({ top }) => Math.round(top))).size > 1;
        })
        .map((one) => one.textContent),
    );
    assert.deepEqual(torn, []);
    assert.equal(await sidewaysOverflow(page), 0);
    await page.locator('[data-sheet="gas-train"] > summary').click();
    const figure = page.locator('[data-sheet="gas-train"] figure').first();
    await figure.tap();
    await page.waitForFunction((figure) => figure.scrollLeft > 0.3 * (figure.scrollWidth - figure.clientWidth), await figure.elementHandle());
    await close();
  });
});

/** In the page: where a figure, its machine and the ring at its ground are. */
function sizes(svg) {
  const all = [...svg.querySelectorAll('.piece')].map((piece) => piece.getBoundingClientRect()).filter(({ width }) => width > 0);
  const machine = {
    left: Math.min(...all.map(({ left }) => left)),
    right: Math.max(...all.map(({ right }) => right)),
    top: Math.min(...all.map(({ top }) => top)),
    bottom: Math.max(...all.map(({ bottom }) => bottom)),
  };
  machine.height = machine.bottom - machine.top;
  const box = (element) => element?.getBoundingClientRect().toJSON();
  return { machine, figure: box(svg), ring: box(svg.querySelector('.grip .grip-dot')) };
}
