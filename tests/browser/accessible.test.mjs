// For everybody: the main job by keyboard alone, names for what is drawn, tables behind charts, large text, strong
// contrast, no motion for those who do not want it. What axe finds is looked for in looks.test.mjs.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { answered, enter, keptWith, panels, showPanel, tabTo } from './lib/screen.mjs';

const WIDTH = 'base.width';
const MOST_STRONG = 7;

/** Whether something in the page, and not the page as a whole, has the focus. */
const focused = (page) => page.evaluate(() => document.activeElement !== document.body && document.activeElement.checkVisibility());

describe('accessible', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('leads by keyboard alone from the first questions over a remedy to a printed sheet', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await page.evaluate(() => {
      window.print = () => window.dispatchEvent(new Event('beforeprint'));
    });
    const press = async (selector, key = 'Enter') => {
      await tabTo(page, selector);
      await page.keyboard.press(key);
    };
    const type = async (path, text) => {
      await tabTo(page, `[data-input="${path}"]`);
      await page.keyboard.press('ControlOrMeta+a');
      await page.keyboard.type(text);
    };

    await press('.notices .notice button:not([aria-label])');
    const question = (number) => page.locator('.guide .count', { hasText: `Question ${number} of 5` }).waitFor();
    await question(1);
    assert.ok(await focused(page), 'the first question has the focus');
    await type('engine.wanted_power', '8 kW');
    for (let number = 1; number <= 5; number += 1) {
      await question(number);
      if (number > 1) await page.waitForFunction(() => document.activeElement.matches('.guide h2'));
      assert.ok(await focused(page), `question ${number} has the focus`);
      await press('.guide .go-on');
    }
    await page.locator('.guide').waitFor({ state: 'detached' });
    // What became of the answers is told first.
    await page.waitForFunction(() => document.activeElement.matches('#unmet') && /^Complete/.test(document.activeElement.textContent));

    await type(WIDTH, '400');
    await answered(page, 'standing.push', 'Stop');
    const elsewhere = 'article[data-finding="standing.push"] .elsewhere button';
    await page.locator(elsewhere).waitFor();
    await press(elsewhere);
    await page.waitForFunction(() => document.activeElement.matches('.best-step h2'));
    await press('.best-step button.apply');
    await answered(page, 'standing.push', 'Good');

    await press('#panel-workshop .item-tools > button:first-child');
    const summary = page.locator('#paper > section').first();
    await summary.waitFor({ state: 'attached' });
    assert.match(await summary.textContent(), /Good/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('names buttons that look alike by what they act on', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    const names = (places) =>
      page.locator(places).evaluateAll((all) => all.map((one) => ({ name: one.getAttribute('aria-label') ?? '', words: one.innerText.trim() })));
    const check = (found, least) => {
      assert.ok(found.length >= least, JSON.stringify(found));
      assert.equal(new Set(found.map(({ name }) => name)).size, found.length, JSON.stringify(found));
      for (const { name, words } of found) {
        assert.ok(/^[↑↓]$/.test(words) || name.startsWith(words), `${name} begins with ${words}`);
        assert.ok(name.length > words.length, name);
      }
    };
    await showPanel(page, 'numbers');
    const lists = [];
    const tools = [];
    // One group of the form is open at a time, and one item.
    for (const group of await page.locator('#panel-numbers details.group').all()) {
      if (!(await group.evaluate(({ open }) => open))) await group.locator('> summary').click();
      await group.locator('.group-body').waitFor();
      lists.push(...(await names('#panel-numbers button.add, #panel-numbers .item-moves button')));
      check(await names('#panel-numbers .plus-minus > summary'), 0);
      for (const list of await group.locator('.section.list:has(.item)').all()) {
        await list.locator('.item > details > summary').first().click();
        await list.locator('.item-body').waitFor();
        tools.push(...(await names('#panel-numbers .item-body > .item-tools > button')));
      }
    }
    check(lists, 16);
    check(tools, 6);
    await showPanel(page, 'verdicts');
    for (const place of [0, 1]) await page.locator('article[data-finding] .finding-head').nth(place).click();
    check(await names('article[data-finding] .reasons > button'), 2);
    await showPanel(page, 'charts');
    check(await names('#panel-charts .chart-table > summary'), 2);
    assert.deepEqual(errors, []);
    await close();
  });

  it('keeps the ring of the focus off the words around a field', async () => {
    for (const size of SIZES) {
      const { page, close } = await site.open(size);
      await enter(page, WIDTH, '1200');
      const field = page.locator(`.field:has([data-input="${WIDTH}"])`);
      const gaps = await field.evaluate((field) => {
        const input = field.querySelector('input');
        const { outlineOffset, outlineWidth } = getComputedStyle(input);
        const ring = parseFloat(outlineOffset) + parseFloat(outlineWidth);
        const { top, bottom, right } = input.getBoundingClientRect();
        const box = (selector) => field.querySelector(selector).getBoundingClientRect();
        return [top - box('label').bottom, box('.notes').top - bottom, box('.unit').left - right].map((gap) => gap - ring);
      });
      assert.ok(gaps.every((gap) => gap >= 1), `${gaps} px between ring and words`);
      await close();
    }
  });

  it('skips to the verdicts and to the numbers, by links that are seen when they have the focus', async () => {
    for (const size of SIZES) {
      for (const [presses, name, panel] of [[1, 'Skip to the verdicts', 'verdicts'], [2, 'Skip to the numbers', 'numbers']]) {
        const { page, close } = await site.open(size);
        for (let press = 0; press < presses; press += 1) await page.keyboard.press('Tab');
        const link = page.getByRole('button', { name, exact: true });
        assert.ok(await link.evaluate((link) => link === document.activeElement), name);
        await page.waitForFunction(() => document.activeElement.getBoundingClientRect().top >= 0);
        await page.keyboard.press('Enter');
        await page.waitForFunction((id) => document.activeElement.closest(id), `#panel-${panel}`);
        await close();
      }
    }
  });

  it('leads from the head of a desk to each part of the page', async () => {
    const { page, close } = await site.open(DESKTOP);
    const parts = page.getByRole('navigation', { name: 'Parts of the page' });
    for (const name of ['Workshop', 'Train', 'Charts', 'Verdicts', 'Numbers']) {
      await parts.getByRole('button', { name, exact: true }).press('Enter');
      await page.waitForFunction((id) => document.activeElement.id === id, `panel-${name.toLowerCase()}`);
      await page.waitForFunction(() => {
        const { top } = document.activeElement.getBoundingClientRect();
        return top >= 0 && top < innerHeight / 2;
      });
      assert.ok(await page.evaluate(() => document.activeElement.matches(':focus-visible')), name);
    }
    await close();
    const phone = await site.open(PHONE);
    assert.equal(await phone.page.getByRole('navigation', { name: 'Parts of the page' }).isVisible(), false);
    await phone.close();
  });

  it('goes with the focus to what a button leads to', async () => {
    const { page, close } = await site.open(PHONE);
    const finding = page.locator('article[data-finding="standing.push"]');
    await finding.locator('.finding-head').press('Enter');
    await finding.locator('.reasons button').last().press('Enter');
    await page.waitForFunction(() => document.activeElement.matches('#panel-numbers summary'));
    await close();
  });

  it('has names for all that is drawn, and a table behind each chart', async () => {
    const { page, close } = await site.open(DESKTOP);
    const drawing = page.getByRole('group', { name: 'The machine, cut through its axis' });
    await drawing.waitFor();
    assert.equal(await drawing.getAttribute('aria-describedby'), 'drawing-text');
    assert.match(await page.locator('#drawing-text').textContent(), /goes over|tips|stands[\s\S]*\d/i);
    assert.ok((await unnamed(page, 'figure.drawing [data-piece]')) === 0);

    const train = page.getByRole('group', { name: 'The gas train, stage by stage' });
    await train.scrollIntoViewIfNeeded();
    await page.locator('.train svg text.degrees').first().waitFor();
    assert.ok((await page.locator('.train svg [role="button"]').count()) > 10);
    assert.ok((await unnamed(page, '.train svg [role="button"]')) === 0);

    const charts = page.locator('figure.chart');
    const count = await charts.count();
    assert.ok(count >= 5);
    for (let place = 0; place < count; place += 1) {
      const chart = charts.nth(place);
      const name = await chart.getAttribute('data-chart');
      await chart.scrollIntoViewIfNeeded();
      await chart.locator('.chart-body:not([hidden])').waitFor();
      assert.match(await chart.locator('canvas[role="img"]').getAttribute('aria-label'), /\d/, `${name} in words`);
      assert.match(await chart.locator('input[type="range"]').getAttribute('aria-label'), /^Read the chart: ./, name);
      await chart.locator('.chart-table > summary').click();
      await chart.locator('.chart-table tbody td').first().waitFor();
      const cells = await chart.locator('.chart-table tbody td').allTextContents();
      assert.ok(cells.length >= 5, `the table of ${name}`);
      assert.ok(cells.every((text) => /[\d—]|no gas that burns/.test(text)), `the table of ${name}`);
    }
    await showPanel(page, 'workshop');
    await page.locator('[data-sheet="summary"] > summary').click();
    const figure = page.locator('[data-sheet="summary"] figure[role="img"]').first();
    assert.match(await figure.getAttribute('aria-label'), /\d/);
    await close();
  });

  it('tells of charts that are scrolled out of sight what they would show', async () => {
    const { page, close } = await site.open(DESKTOP);
    const charts = page.locator('figure.chart');
    await charts.locator('.chart-body:not([hidden])').nth((await charts.count()) - 1).waitFor();
    const words = () => charts.locator('canvas').evaluateAll((all) => all.map((canvas) => canvas.getAttribute('aria-label')));
    const before = await words();
    const tips = await charts.evaluateAll((all) => all.findIndex(({ dataset }) => dataset.chart === 'tip-angle'));
    assert.ok(tips >= 0);
    await enter(page, 'base.width', '1234');
    await page.waitForFunction(
      ([place, old]) => document.querySelectorAll('figure.chart canvas')[place].getAttribute('aria-label') !== old,
      [tips, before[tips]],
    );
    assert.match((await words())[tips], /1234/);
    await close();
  });

  for (const [width, height] of [[360, 600], [880, 700], [900, 700], [1024, 600], [1440, 560]]) {
    it(`labels the drawing large enough to read in a window of ${width} by ${height}`, async () => {
      const { page, close, shot } = await site.open({ name: `${width}x${height}`, viewport: { width, height } });
      const least = () =>
        page.locator('.drawing > svg').first().evaluate((svg) => {
          const scale = svg.getScreenCTM().a;
          return Math.min(...[...svg.querySelectorAll('text')].map((text) => parseFloat(getComputedStyle(text).fontSize) * scale));
        });
      assert.ok((await least()) >= 11, `${await least()} px`);
      await enter(page, 'about.name', 'Another');
      await keptWith(page, 'Another');
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare what I change next with this: Another' }).click();
      await enter(page, 'base.width', '1200');
      await showPanel(page, 'compare');
      await page.locator('.drawing path.ghost').first().waitFor({ state: 'attached' });
      await shot('labels');
      assert.ok((await least()) >= 11, `${await least()} px while comparing`);
      await close();
    });
  }

  for (const size of SIZES) {
    it(`cuts nothing off with text of 200 % on a ${size.name}`, async () => {
      const { page, context, shot, close } = await site.open(size, {
        before: async (page) => {
          // What a person sets as the size of text in the browser.
          const session = await page.context().newCDPSession(page);
          await session.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
        },
      });
      assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize), '32px');
      for (const name of await panels(page)) {
        await showPanel(page, name);
        if (name === 'verdicts') await page.locator('button.apply').first().waitFor();
        if (name === 'verdicts') {
          await unfoldAll(page, '#panel-verdicts .finding-head');
          await page.locator('.working dd').first().waitFor();
        }
        if (name === 'charts') await page.locator('.hearth-makes').evaluate((element) => element.scrollIntoView());
        if (name === 'workshop') {
          await unfoldAll(page, '[data-sheet] > summary');
          await page.locator('[data-sheet="cost"] table').first().waitFor();
        }
        await shot(`large-text-${name}`);
        assert.equal(await sidewaysOverflow(page), 0, name);
        assert.deepEqual(await page.evaluate(cutOff), [], name);
        assert.deepEqual(await page.evaluate(brokenVerdicts), [], name);
        if (name === 'verdicts') {
          const outside = await page.locator('.drawing > svg').first().evaluate((svg) => {
            const { left, right } = svg.getBoundingClientRect();
            const cut = (text) => {
              const box = text.getBoundingClientRect();
              return box.left < left - 1 || box.right > right + 1;
            };
            return [...svg.querySelectorAll('text')].filter(cut).map((text) => text.textContent);
          });
          assert.deepEqual(outside, [], 'texts of the drawing');
        }
      }
      await showPanel(page, 'designs');
      await page.locator('#panel-designs').getByRole('button', { name: 'Start my own' }).click();
      await page.locator('.guide').waitFor();
      await shot('large-text-question');
      assert.equal(await sidewaysOverflow(page), 0, 'first question');
      assert.deepEqual(await page.evaluate(cutOff), [], 'first question');
      await context.close();
      await close();
    });
  }

  it('breaks no word of a verdict on a phone', async () => {
    const { page, close } = await site.open(PHONE);
    for (const name of await panels(page)) {
      await showPanel(page, name);
      if (name === 'train') await page.locator('.verdict-line .verdict').first().waitFor();
      if (name === 'charts') await page.locator('.hearth-makes').evaluate((element) => element.scrollIntoView());
      assert.deepEqual(await page.evaluate(brokenVerdicts), [], name);
    }
    await close();
  });

  for (const colorScheme of ['light', 'dark']) {
    it(`writes numbers with a contrast of seven to one, ${colorScheme}`, async () => {
      const { page, close } = await site.open(PHONE, {
        context: { colorScheme },
        before: (page) => page.addInitScript(noteCanvasTexts),
      });
      const seen = [];
      for (const name of await panels(page)) {
        await showPanel(page, name);
        if (name === 'verdicts') {
          await page.locator('button.apply').first().waitFor();
          await page.locator('.finding-head').first().click();
        }
        if (name === 'train') await page.locator('.train svg text.degrees').first().waitFor();
        if (name === 'charts') await page.locator('.chart-body:not([hidden])').first().waitFor();
        if (name === 'workshop') await page.locator('[data-sheet="summary"] > summary').click();
        const texts = await page.evaluate(contrasts);
        assert.ok(texts.length > (name === 'workshop' || name === 'designs' ? 3 : 10), `${name} has numbers: ${texts.length}`);
        seen.push(...texts);
      }
      const drawn = await page.evaluate(() => globalThis.canvasTexts);
      assert.ok(drawn.length > 10, 'charts have numbers');
      const weak = [...seen, ...drawn].filter(({ contrast }) => contrast < MOST_STRONG);
      assert.deepEqual(weak, []);
      await close();
    });
  }

  it('moves nothing for those who want no motion', async () => {
    const { page, close } = await site.open(PHONE, {
      context: { reducedMotion: 'reduce' },
      before: (page) => page.addInitScript(noteMotion),
    });
    for (const name of await panels(page)) await showPanel(page, name);
    await showPanel(page, 'verdicts');
    await page.locator('button.apply').first().click();
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    assert.deepEqual(await page.evaluate(() => globalThis.motion), []);
    // Also what someone adds later stands still.
    const later = await page.evaluate(() => {
      const element = document.createElement('p');
      document.body.append(element);
      element.style.transition = 'opacity 1s';
      element.style.animation = 'spin 1s infinite';
      element.style.scrollBehavior = 'smooth';
      const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(element);
      return [transitionDuration, animationName, scrollBehavior];
    });
    assert.deepEqual(later, ['0s', 'none', 'auto']);
    await close();
  });
});

/** How many of these have no accessible name that the browser can tell. */
async function unnamed(page, selector) {
  const all = page.locator(selector);
  assert.ok((await all.count()) > 0, selector);
  return all.evaluateAll((found) => found.filter((one) => !one.getAttribute('aria-label')?.trim()).length);
}

/** Presses each of these. */
function unfoldAll(page, selector) {
  return page.locator(selector).evaluateAll((all) => all.forEach((one) => one.click()));
}

/** Words of verdicts that do not stand in one line. */
function brokenVerdicts() {
  const inLines = (element) => {
    const range = document.createRange();
    range.selectNodeContents(element);
    return new Set([...range.getClientRects()].filter((box) => box.width > 0).map((box) => Math.round(box.top))).size;
  };
  const words = [...document.querySelectorAll('.verdict')].flatMap((verdict) => [...verdict.querySelectorAll('*'), verdict]);
  return words.filter((word) => word.checkVisibility() && word.childElementCount === 0 && inLines(word) > 1).map((word) => word.textContent);
}

/** In the page: texts that do not fit where they stand, as readable lines. */
function cutOff() {
  const wide = Math.min(document.documentElement.clientWidth, screen.width);
  const scrolls = (element) => ['auto', 'scroll'].includes(getComputedStyle(element).overflowX);
  const found = [];
  for (const element of document.querySelectorAll('body *')) {
    if (!(element instanceof HTMLElement) || !element.checkVisibility({ visibilityProperty: true })) continue;
    if (element.closest('.visually-hidden, thead, svg')) continue;
    const own = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent.trim());
    if (!own) continue;
    const name = `${element.localName}.${element.className} “${element.textContent.trim().slice(0, 40)}”`;
    const { left, right, width } = element.getBoundingClientRect();
    if (width > 1 && element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1) found.push(`${name} runs over its box`);
    for (let around = element; around && around !== document.body; around = around.parentElement) {
      if (scrolls(around) && around.scrollWidth > around.clientWidth && around.matches('.chart-table-room')) break;
      if (around === element.parentElement?.closest('main, header, nav, section') && (left < -1 || right > wide + 1)) found.push(`${name} leaves the screen`);
    }
  }
  for (const input of document.querySelectorAll('.entry input[data-input]')) {
    if (input.checkVisibility() && input.type === 'text' && input.closest('.field').querySelector('.unit') && input.scrollWidth > input.clientWidth + 1) {
      found.push(`the number ${input.value} of ${input.dataset.input}`);
    }
  }
  return found;
}

/** In the page: each text with a digit, its colour and that of its ground as they are rendered, and their contrast. */
function contrasts() {
  const numbers = (colour) => {
    const parts = colour.match(/[\d.]+/g).map(Number);
    return parts.length > 3 ? parts : [...parts, 1];
  };
  const over = ([r, g, b, a], [R, G, B]) => [r * a + R * (1 - a), g * a + G * (1 - a), b * a + B * (1 - a)];
  const light = (rgb) => {
    const [r, g, b] = rgb.map((part) => part / 255).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ground = (element) => {
    const layers = [];
    for (let around = element; around; around = around.parentElement) {
      const layer = numbers(getComputedStyle(around).backgroundColor);
      layers.push(layer);
      if (layer[3] === 1) break;
    }
    return layers.reverse().reduce((below, layer) => over(layer, below), [255, 255, 255]);
  };
  const opacity = (element) => {
    let whole = 1;
    for (let around = element; around; around = around.parentElement) whole *= Number(getComputedStyle(around).opacity);
    return whole;
  };
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  while (texts.nextNode()) {
    const text = texts.currentNode.textContent.trim();
    const element = texts.currentNode.parentElement;
    if (!/\d/.test(text) || !element.checkVisibility({ visibilityProperty: true }) || element.closest('.visually-hidden, noscript, script')) continue;
    if (element.closest('button:disabled, title')) continue;
    const style = getComputedStyle(element);
    const colour = numbers(element instanceof SVGElement ? style.fill : style.color);
    const below = ground(element);
    const above = over([...colour.slice(0, 3), colour[3] * opacity(element)], below);
    const [dim, bright] = [light(above), light(below)].sort((a, b) => a - b);
    found.push({ text: text.slice(0, 40), colour: above.join(), contrast: Math.round(((bright + 0.05) / (dim + 0.05)) * 100) / 100 });
  }
  return found;
}

/** In the page, before anything else runs: notes the contrast of texts with a digit that are drawn on a canvas. */
function noteCanvasTexts() {
  globalThis.canvasTexts = [];
  const light = (colour) => {
    const [r, g, b] = [1, 3, 5]
      .map((at) => parseInt(colour.slice(at, at + 2), 16) / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const plain = CanvasRenderingContext2D.prototype.fillText;
  CanvasRenderingContext2D.prototype.fillText = function fillText(text, ...place) {
    if (/\d/.test(text)) {
      const paper = getComputedStyle(document.documentElement).getPropertyValue('--paper').trim();
      const [dim, bright] = [light(this.fillStyle), light(paper)].sort((a, b) => a - b);
      globalThis.canvasTexts.push({ text, colour: this.fillStyle, contrast: Math.round(((bright + 0.05) / (dim + 0.05)) * 100) / 100 });
    }
    return plain.call(this, text, ...place);
  };
}

/** In the page, before anything else runs: notes what begins to move. */
function noteMotion() {
  globalThis.motion = [];
  for (const kind of ['transitionrun', 'animationstart']) {
    document.addEventListener(kind, ({ target }) => {
      const moves = document.getAnimations().some((one) => one.effect.target === target && one.effect.getComputedTiming().activeDuration > 0);
      if (moves) globalThis.motion.push(`${kind} ${target.className}`);
    }, true);
  }
}
