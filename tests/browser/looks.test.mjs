// Every panel at both sizes, light and dark: readable, reachable, nothing sideways, nothing from elsewhere.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { enter, field, panels, shareLink, showPanel } from './lib/screen.mjs';

/** A thumb's width, in CSS pixels. */
const THUMB = 44;

describe('looks', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    for (const colorScheme of ['light', 'dark']) {
      it(`shows every panel on a ${size.name}, ${colorScheme}`, async () => {
        const visit = await site.open(size, { context: { colorScheme, reducedMotion: 'reduce' } });
        const { page } = visit;
        const names = await panels(page);
        assert.ok(names.length >= 3);
        for (const name of names) {
          await showPanel(page, name);
          // Remedies come a moment later.
          if (name === 'verdicts') await page.locator('button.apply').first().waitFor();
          await visit.shot(`${name}-${colorScheme}`);
          assert.deepEqual(await visit.seriousProblems(), [], name);
          assert.equal(await sidewaysOverflow(page), 0, `${name} needs no sideways scrolling`);
        }
        await showPanel(page, 'verdicts');
        await page.getByRole('button', { name: 'How sure is this?' }).click();
        await page.locator('.how-sure[data-cases="2000"]').waitFor({ timeout: 60_000 });
        await page.locator('.finding-head').first().click();
        assert.deepEqual(await visit.seriousProblems(), [], 'how sure, and the reasons of a verdict');
        await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
        await page.locator('.guide').waitFor();
        assert.deepEqual(await visit.seriousProblems(), [], 'first question');
        assert.deepEqual(visit.strays, [], 'no request leaves the site');
        assert.deepEqual(visit.errors, []);
        await visit.close();
      });
    }
  }

  for (const size of SIZES) {
    it(`writes no two words of a chart over each other on a ${size.name}`, async () => {
      const { page, close } = await site.open(size, { before: (page) => page.addInitScript(noteCanvasPlaces) });
      for (const units of ['metric', 'inch']) {
        await page.getByRole('button', { name: new RegExp(`${units} units`) }).click();
        const charts = (await showPanel(page, 'charts')).locator('figure.chart');
        for (let place = 0; place < (await charts.count()); place += 1) {
          const canvas = charts.nth(place).locator('canvas');
          await page.waitForFunction(drawnInSight, await canvas.elementHandle(), { polling: 50 });
          // A chart that was shown already is drawn anew in other units a moment later.
          await page.waitForTimeout(200);
          assert.deepEqual(await canvas.evaluate(overEachOther), [], `${units}, ${await charts.nth(place).getAttribute('data-chart')}`);
        }
      }
      await close();
    });
  }

  it('marks on its chart how hot a bare wall is now', async () => {
    const { page, close } = await site.open(DESKTOP, { before: (page) => page.addInitScript(noteCanvasPlaces) });
    const chart = (await showPanel(page, 'charts')).locator('figure.chart[data-chart="thickness"]');
    const canvas = chart.locator('canvas');
    await page.waitForFunction(drawnInSight, await canvas.elementHandle(), { polling: 50 });
    const words = await chart.locator('.chart-words').innerText();
    const [, outside] = words.match(/Bare as it is, the outside gets up to (\d+ °C)/);
    const texts = () => canvas.evaluate(({ writtenTexts }) => writtenTexts.map(({ text }) => text));
    for (const said of [`now ${outside}`, 'now bare']) assert.ok((await texts()).includes(said), `${said}: ${await texts()}`);
    const reader = chart.locator('input[type="range"]');
    const use = chart.getByRole('button', { name: /^Use this value/ });
    await reader.fill('1');
    assert.ok(await use.isEnabled());
    await reader.fill('0');
    assert.match(await chart.locator('.chart-says').innerText(), new RegExp(`^Thickness 0 mm: .*${outside}$`));
    assert.ok(await use.isDisabled(), 'it is so already');
    await close();
  });

  it('keeps the counts in sight on a phone that is scrolled, above a drawing that leaves room', async () => {
    const visit = await site.open(PHONE);
    const { page } = visit;
    for (const panel of ['numbers', 'verdicts']) {
      await showPanel(page, panel);
      await page.evaluate(() => window.scrollTo(0, 1200));
      await page.waitForFunction(() => window.scrollY > 300);
      const tally = page.locator('.summary .tally').first();
      const seen = await tally.evaluate((tally) => {
        const { left, top, width, height } = tally.getBoundingClientRect();
        return tally.contains(document.elementFromPoint(left + width / 2, top + height / 2));
      });
      assert.ok(seen, `the counts over ${panel}`);
      const { bottom } = await page.locator('.drawing > svg').first().evaluate((svg) => svg.getBoundingClientRect());
      const covers = await page.locator('.drawing > svg').first().evaluate((svg) => {
        const { left, top, width } = svg.getBoundingClientRect();
        return svg.contains(document.elementFromPoint(left + width / 2, top + 4));
      });
      assert.ok(covers, 'all of the drawing is seen');
      // So much that the parts of the machine can be told from each other, and that half of the screen is left.
      assert.ok(bottom <= 270, `${bottom} px stay in view`);
      await visit.shot(`scrolled-${panel}`);
    }
    await visit.close();
  });

  it('says fully above the drawing that it is of before, while a field is wrong on a phone', async () => {
    const visit = await site.open(PHONE);
    const { page } = visit;
    const entry = await field(page, 'base.width');
    await entry.fill('50 0');
    await page.locator('.stale').waitFor();
    for (const scrolled of [0, 15, 40, 900]) {
      await page.evaluate((to) => window.scrollTo(0, to), scrolled);
      await page.waitForFunction((to) => Math.abs(scrollY - to) < 2, scrolled);
      const cut = await page.evaluate(() => {
        const drawing = document.querySelector('.drawing > svg');
        const whole = [...document.querySelectorAll('.summary .tally, .summary .stale, .summary .to-field')].map((one) => {
          const { left, right, top, bottom } = one.getBoundingClientRect();
          const corners = [[left + 3, top + 3], [right - 3, top + 3], [left + 3, bottom - 3], [right - 3, bottom - 3]];
          const summary = one.closest('.summary');
          return corners.every(([x, y]) => summary.contains(document.elementFromPoint(x, y)));
        });
        const { left, width, top, bottom } = drawing.getBoundingClientRect();
        whole.push([top + 4, bottom - 6].every((y) => drawing.contains(document.elementFromPoint(left + width / 4, y))));
        return whole.filter((is) => !is).length;
      });
      assert.equal(cut, 0, `scrolled by ${scrolled} px`);
    }
    await visit.shot('wrong-field');
    await visit.close();
  });

  it('lands at the beginning of a panel below a notice, and where it was left, on a phone', async () => {
    const sender = await site.open(PHONE);
    await enter(sender.page, 'about.note', 'Will it tip on my slope? The yard falls towards the shed. '.repeat(4));
    const link = (await shareLink(sender.page)).split('#')[1];
    await sender.close();
    const visit = await site.open(PHONE, { fragment: link });
    const { page } = visit;
    await page.locator('.notice-note').waitFor();
    for (const [panel, heading] of [
      ['designs', 'h2'],
      ['charts', 'h2, h3, summary'],
      ['workshop', 'h2, h3, summary, button'],
      ['train', 'h2, h3'],
      ['numbers', 'summary'],
    ]) {
      await showPanel(page, panel);
      await page.waitForTimeout(300);
      const [top, covered] = await page.evaluate(
        ([id, heading]) => [
          document.querySelector(`#${id} :is(${heading})`).getBoundingClientRect().top,
          Math.max(...['.stays', '.summary'].map((one) => document.querySelector(one).getBoundingClientRect().bottom)),
        ],
        [`panel-${panel}`, heading],
      );
      await visit.shot(`landed-on-${panel}`);
      assert.ok(top >= covered - 1 && top < 0.65 * PHONE.viewport.height, `${panel}: ${top}, covered to ${covered}`);
    }
    const place = () => page.locator('#panel-numbers').evaluate((panel) => Math.round(panel.getBoundingClientRect().top));
    await page.evaluate(() => window.scrollTo(0, 700));
    const left = await place();
    await showPanel(page, 'charts');
    await page.locator('.notice').getByRole('button', { name: 'Dismiss' }).click();
    await showPanel(page, 'numbers');
    await page.waitForTimeout(300);
    assert.ok(Math.abs((await place()) - left) <= 2, `${await place()} for ${left}`);
    assert.deepEqual(visit.errors, []);
    await visit.close();
  });

  it('lets the machine scroll away on a phone laid on its side that is too small for two columns', async () => {
    const visit = await site.open({ ...PHONE, viewport: { width: 620, height: 340 } });
    const { page } = visit;
    for (const panel of ['numbers', 'verdicts']) {
      await showPanel(page, panel);
      // The machine fills such a screen: what was asked for comes up into view.
      await page.waitForFunction(
        (id) => document.getElementById(id).getBoundingClientRect().top < 0.5 * innerHeight,
        `panel-${panel}`,
      );
      await page.evaluate(() => window.scrollTo(0, 1200));
      await page.waitForFunction(() => window.scrollY > 300);
      for (const stays of ['.drawing > svg', '.summary']) {
        const bottom = await page.locator(stays).first().evaluate((element) => element.getBoundingClientRect().bottom);
        assert.ok(bottom <= 0, `${stays} stays in view over ${panel}`);
      }
    }
    await visit.shot('on-its-side');
    await visit.close();
  });

  for (const size of SIZES) {
    it(`writes beside the height of the machine, not across its line, on a ${size.name}`, async () => {
      const { page, close } = await site.open(size);
      for (const units of ['metric', 'inch']) {
        await page.getByRole('button', { name: new RegExp(`${units} units`) }).click();
        const crossed = await page.locator('.drawing > svg').first().evaluate((svg) => {
          const boxes = (selector) => [...svg.querySelectorAll(selector)].map((one) => [one, one.getBoundingClientRect()]);
          const height = boxes('.notes-of-drawing path.dimension').find(([, { width, height }]) => width < 1 && height > 50)[1];
          const texts = boxes('.notes-of-drawing text');
          return texts
            .filter(([, { left, right, top, bottom }]) => left < height.left && right > height.left && bottom > height.top && top < height.bottom)
            .map(([one]) => one.textContent);
        });
        assert.deepEqual(crossed, [], units);
      }
      await close();
    });
  }

  it('breaks no word of a label in a list on a phone', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    await page.locator('[data-sheet="parts"] > summary').click();
    const wraps = await page
      .locator('[data-sheet="parts"] td[data-label="Joined to"]')
      .evaluateAll((all) => all.map((cell) => getComputedStyle(cell, '::before').overflowWrap));
    assert.ok(wraps.length > 0 && wraps.every((wrap) => wrap === 'break-word'), `${wraps}`);
    await close();
  });

  it('shows the whole name of a layer in the choice above its chart', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'charts');
    const cut = await page.locator('.chart-choice select').evaluate((select) => {
      const { font, paddingLeft, paddingRight } = getComputedStyle(select);
      const pen = document.createElement('canvas').getContext('2d');
      pen.font = font;
      const arrow = 20;
      const room = select.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight) - arrow;
      return [...select.options].map(({ label }) => label.trim()).filter((label) => pen.measureText(label).width > room);
    });
    assert.deepEqual(cut, []);
    await close();
  });

  it('has targets for thumbs in every panel', async () => {
    const { page, close } = await site.open(PHONE);
    for (const name of await panels(page)) {
      await showPanel(page, name);
      if (name === 'verdicts') await page.locator('button.apply').first().waitFor();
      assert.deepEqual(await page.evaluate(smallTargets, THUMB), [], name);
    }
    await close();
  });

  it('has every group of the form within the width of a phone', async () => {
    const { page, seriousProblems, close } = await site.open(PHONE);
    await showPanel(page, 'numbers');
    const groups = page.locator('#panel-numbers details.group');
    for (let place = 0; place < (await groups.count()); place += 1) {
      const group = groups.nth(place);
      const name = await group.getAttribute('id');
      if (!(await group.evaluate(({ open }) => open))) await group.locator('> summary').click();
      const item = group.locator('.item summary').first();
      if (await item.count()) await item.click();
      assert.equal(await sidewaysOverflow(page), 0, name);
      assert.deepEqual(await page.evaluate(smallTargets, THUMB), [], name);
      assert.deepEqual(await seriousProblems(), [], name);
    }
    await close();
  });
});

/** In the page, before anything else runs: notes where texts are written on a canvas since it was wiped. */
function noteCanvasPlaces() {
  const width = Object.getOwnPropertyDescriptor(HTMLCanvasElement.prototype, 'width');
  Object.defineProperty(HTMLCanvasElement.prototype, 'width', {
    ...width,
    set(wide) {
      this.writtenTexts = [];
      width.set.call(this, wide);
    },
  });
  const plain = CanvasRenderingContext2D.prototype.fillText;
  CanvasRenderingContext2D.prototype.fillText = function fillText(text, x, y, ...more) {
    const { actualBoundingBoxLeft, actualBoundingBoxRight, actualBoundingBoxAscent, actualBoundingBoxDescent } = this.measureText(text);
    const box = [x - actualBoundingBoxLeft, y - actualBoundingBoxAscent, x + actualBoundingBoxRight, y + actualBoundingBoxDescent];
    this.canvas.writtenTexts?.push({ text, box });
    return plain.call(this, text, x, y, ...more);
  };
}

/** In the page: whether a canvas is written on; what comes above it may push it out of sight, where nothing is drawn. */
function drawnInSight(canvas) {
  const isDrawn = canvas.writtenTexts?.length > 5;
  if (!isDrawn) canvas.scrollIntoView();
  return isDrawn;
}

/** In the page: which texts on a canvas cover each other. */
function overEachOther({ writtenTexts }) {
  const shared = ([left, top, right, bottom], [Left, Top, Right, Bottom]) =>
    Math.min(right, Right) - Math.max(left, Left) > 1 && Math.min(bottom, Bottom) - Math.max(top, Top) > 1;
  return writtenTexts.flatMap((one, place) =>
    writtenTexts.slice(place + 1).filter((other) => shared(one.box, other.box)).map((other) => `${one.text} and ${other.text}`),
  );
}

/** In the page: buttons and fields that are seen but smaller than a thumb needs, with their sizes. */
function smallTargets(thumb) {
  return [...document.querySelectorAll('button, input, select, textarea, summary')]
    .map((element) => (['checkbox', 'file', 'radio'].includes(element.type) ? (element.closest('label') ?? element) : element))
    .filter((element) => element.checkVisibility({ visibilityProperty: true }))
    .map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ box }) => box.width > 0 && (box.width < thumb - 0.5 || box.height < thumb - 0.5))
    .map(({ element, box }) => {
      const name = element.getAttribute('aria-label') ?? element.id ?? '';
      return `${element.localName} ${name || element.textContent.trim().slice(0, 30)}: ${box.width.toFixed(0)} × ${box.height.toFixed(0)}`;
    });
}
