// What the first screen tells at a glance, and where a tap on it leads: counts, names, labels of the drawing, offers.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, sidewaysOverflow, start } from './lib/app.mjs';
import { enter, showPanel } from './lib/screen.mjs';

const THUMB = 44;
const ON_ITS_SIDE = { ...PHONE, name: 'phone-on-its-side', viewport: { width: 740, height: 360 } };

describe('at a glance', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`leads from a number to the working that comes to it on a ${size.name}`, async () => {
      const { page, errors, shot, close } = await site.open(size);
      const panel = await showPanel(page, 'charts');
      const chapter = panel.locator('.results details', { hasText: 'Will it stand?' }).first();
      // By key: charts that come into view above it may move it away from a finger.
      await chapter.locator('> summary').press('Enter');
      const row = chapter.locator('[data-result="standing.tip_angle_full"]');
      const number = (await row.locator('td').first().innerText()).trim();
      const working = row.getByRole('button', { name: 'Working: ' });
      const { width, height } = await working.boundingBox();
      assert.ok(width >= THUMB && height >= THUMB, `${width} × ${height}`);
      assert.equal(await sidewaysOverflow(page), 0);
      await shot(`numbers-${size.name}`);
      await working.click();
      const finding = page.locator('article[data-finding="standing.tip_full"]');
      await finding.locator('.working').first().waitFor();
      await page.waitForFunction(() => document.activeElement.closest('article')?.dataset.finding === 'standing.tip_full');
      const degrees = (text) => Number.parseFloat(text);
      const results = await finding.locator('.working strong').allInnerTexts();
      assert.ok(results.some((result) => Math.abs(degrees(result) - degrees(number)) < 0.1), `${number} in ${results}`);
      // Pressed again, what is unfolded stays so.
      await showPanel(page, 'charts');
      await working.click();
      await page.waitForFunction(() => document.activeElement.closest('article')?.dataset.finding === 'standing.tip_full');
      assert.ok(await finding.locator('.working').first().isVisible());
      assert.deepEqual(errors, []);
      await close();
    });
  }

  for (const size of [...SIZES, ON_ITS_SIDE]) {
    it(`leads from each count to the first verdict of its kind on a ${size.name}`, async () => {
      const { page, errors, shot, close } = await site.open(size);
      const counts = page.locator('.summary .tally');
      assert.equal(await counts.count(), 4);
      const rows = new Set();
      for (let place = 0; place < 4; place += 1) {
        const count = counts.nth(place);
        const { y, width, height } = await count.boundingBox();
        rows.add(Math.round(y));
        assert.ok(width >= THUMB && height >= THUMB, `${width} × ${height}`);
        const word = (await count.innerText()).replace(/^\d+\s/, '');
        // From another panel too, where panels take turns.
        if (size !== DESKTOP) await showPanel(page, 'numbers');
        await count.click();
        await page.waitForFunction((word) => {
          const first = document.querySelector(`article[data-verdict="${word}"] .finding-head`);
          return first && first === document.activeElement;
        }, word);
        const seen = () =>
          page.evaluate(() => {
            const { left, top, height } = document.activeElement.getBoundingClientRect();
            return document.activeElement.contains(document.elementFromPoint(left + 8, top + Math.min(height / 2, 20)));
          });
        await page.waitForTimeout(100);
        assert.ok(await seen(), `the first ${word} is not covered`);
        if (place === 0) await shot('first-stop');
        await page.evaluate(() => window.scrollTo(0, 0));
      }
      assert.equal(rows.size, 1, 'all counts stand side by side');
      assert.deepEqual(errors, []);
      await close();
    });

    it(`names what stops on the first screen on a ${size.name}`, async () => {
      const { page, shot, close } = await site.open(size);
      const worst = page.locator('.bench > .worst');
      const line = await worst.innerText();
      const told = /^Stops: (.+) and (\d+) more$/.exec(line);
      assert.ok(told, line);
      const titles = await page.locator('article[data-verdict="Stop"] .title').allTextContents();
      const first = page.locator('article[data-finding]').first();
      assert.equal(await first.getAttribute('data-finding'), 'leaks.room', 'what kills comes first');
      assert.ok(told[1].startsWith('Carbon monoxide in the room'), line);
      const named = told[1].split(', ');
      assert.deepEqual(named, titles.slice(0, named.length));
      assert.equal(named.length + Number(told[2]), titles.length);
      assert.ok(await worst.locator('span').evaluate((span) => span.scrollHeight <= span.clientHeight + 1), 'nothing of it is cut off');
      const { y, height } = await worst.boundingBox();
      assert.ok(height >= THUMB && height < 2 * THUMB, `${height}`);
      if (size !== ON_ITS_SIDE) assert.ok(y + height < size.viewport.height);
      await shot('first-screen');
      await worst.click();
      await page.waitForFunction(() => document.activeElement.matches('article[data-verdict="Stop"] .finding-head'));
      await close();
    });
  }

  it('has a sign on each verdict that turns when it is open', async () => {
    const { page, close } = await site.open(PHONE);
    const head = page.locator('.finding-head').first();
    const sign = () =>
      head.locator('.title').evaluate((title) => {
        const { transform, width, content } = getComputedStyle(title, '::after');
        return { transform, width, content };
      });
    const closed = await sign();
    assert.equal(closed.content, '""', 'nothing for those who hear the page');
    assert.ok(Number.parseFloat(closed.width) >= 8);
    await head.click();
    assert.notEqual((await sign()).transform, closed.transform);
    await close();
  });

  for (const size of [...SIZES, ON_ITS_SIDE, { ...PHONE, name: 'large-text-phone', large: true }, { name: 'small-desk', viewport: { width: 920, height: 700 } }]) {
    it(`writes all labels of the drawing within it and none over another on a ${size.name}`, async () => {
      const { large, ...screen } = size;
      const { page, shot, close } = await site.open(screen, {
        before: async (page) => {
          if (!large) return;
          const session = await page.context().newCDPSession(page);
          await session.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
        },
      });
      for (const [units, width] of [['metric', '410'], ['metric', '660'], ['inch', '26'], ['metric', '1200']]) {
        await page.getByRole('button', { name: new RegExp(`${units} units`) }).click();
        await enter(page, 'base.width', width);
        if (size !== DESKTOP) await showPanel(page, 'verdicts');
        await page.evaluate(() => window.scrollTo(0, 0));
        const said = await page.locator('.drawing > svg').first().evaluate(labels);
        assert.ok(said.texts.length >= 8, `${said.texts}`);
        for (const name of ['lid', 'body wall', 'hearth wall', 'throat', 'tips at', 'gas']) {
          assert.ok(said.texts.some((text) => new RegExp(`^${name} \\d`).test(text)), `${name}: ${said.texts}`);
        }
        assert.deepEqual(said.outside, [], `${units} ${width}`);
        assert.deepEqual(said.overlaps, [], `${units} ${width}`);
        await shot(`labels-${width}-${units}`);
      }
      await close();
    });
  }

  it('opens by a tap on a label what a tap on its part opens, or its input, or its verdict', async () => {
    const { page, errors, shot, close } = await site.open(PHONE);
    const label = (words) => page.locator('.drawing > svg text:visible', { hasText: words }).first();
    const told = page.locator('.touched-piece');
    await label(/^hearth wall/).tap();
    await told.waitFor();
    assert.match(await told.innerText(), /^Layer \d of the hearth wall/);
    for (const words of [/^hearth wall/, /^body wall/, /^lid/]) {
      await label(words).tap();
      const change = told.getByRole('button', { name: 'Change' });
      const { width, height } = await change.boundingBox();
      assert.ok(height < 50 && width > 60, `${width} × ${height}`);
      assert.equal(await sidewaysOverflow(page), 0);
    }
    await page.locator('[data-piece="hopper"]').first().evaluate((piece) => piece.dispatchEvent(new MouseEvent('click', { bubbles: true })));
    await shot('touched');
    await showPanel(page, 'designs');
    await told.waitFor({ state: 'detached' });
    await showPanel(page, 'verdicts');
    assert.equal(await told.count(), 0);

    await label(/^tips at/).tap();
    await page.waitForFunction(() => document.activeElement.closest('article[data-finding="standing.tip_full"]'));
    await page.evaluate(() => window.scrollTo(0, 0));
    await label(/^410 mm/).tap();
    await page.waitForFunction(() => document.activeElement.matches('[data-input="base.width"]'));
    await label(/^throat/).tap();
    await page.waitForFunction(() => document.activeElement.matches('[data-input="hearth.throat_diameter"]'));
    assert.deepEqual(errors, []);
    await close();
  });

  it('takes a tap beside a label for the label, since a thumb is wide', async () => {
    const { page, errors, close } = await site.open(PHONE);
    const beside = async (words, across, down) => {
      await page.evaluate(() => window.scrollTo(0, 0));
      const label = page.locator('.drawing > svg text:visible', { hasText: words }).first();
      const { x, y, width, height } = await label.boundingBox();
      await page.touchscreen.tap(x + width / 2 + across, y + height / 2 + down);
    };
    const focused = (path) => page.waitForFunction((wanted) => document.activeElement.matches(`[data-input="${wanted}"]`), path);
    await beside(/^410 mm/, 0, -20);
    await focused('base.width');
    await beside(/^throat/, -30, 25);
    await focused('hearth.throat_diameter');
    await showPanel(page, 'verdicts');
    await beside(/^410 mm/, 200, 0);
    assert.equal(await page.locator('#panel-verdicts').isVisible(), true, 'what is far from all labels means none');
    assert.deepEqual(errors, []);
    await close();
  });

  it('writes the names of materials and units as they are', async () => {
    const { page, close } = await site.open(PHONE);
    await page.locator('.best-step .apply').first().waitFor();
    await page.locator('.best-step li', { hasText: /Add .* of ceramic fibre blanket/ }).locator('.apply').first().click();
    const blanket = page.locator('[data-piece^="hearth_layers."]').last();
    await blanket.focus();
    await page.keyboard.press('Enter');
    assert.match(await page.locator('.touched-piece').innerText(), /ceramic fibre blanket, 1\d{3} °C \(\d{4} °F\) class/);
    await close();
  });

  for (const size of SIZES) {
    it(`says in short what a change spoils, with the names folded behind it, on a ${size.name}`, async () => {
      const { page, errors, shot, close } = await site.open(size);
      await page.locator('.verdicts[aria-busy="false"] article .spoils').first().waitFor({ timeout: 20_000 });
      const folds = await page.locator('article .spoils').evaluateAll((all) =>
        all.map((fold) => ({
          short: fold.querySelector('summary').textContent,
          names: [...fold.querySelectorAll('p')].map((name) => name.textContent),
        })),
      );
      assert.ok(folds.length > 3);
      for (const { short, names } of folds) {
        assert.match(short, /^\d+ → \d+ Stops?[;,] /);
        const count = (pattern) => Number(pattern.exec(short)?.[1] ?? 0);
        const news = count(/, (\d+) new/);
        assert.equal(news, names.filter((name) => name.startsWith('Then Stop: ')).length, short);
        assert.equal(news + count(/(\d+)(?: more)? gets? worse/), names.length, short);
      }
      assert.ok(folds.some(({ short }) => /, \d+ new/.test(short)));
      const fold = page.locator('article .spoils', { hasText: /, \d+ new/ }).first();
      assert.ok(await fold.locator('p').first().isHidden());
      await fold.scrollIntoViewIfNeeded();
      await shot('spoils-folded');
      await fold.locator('summary').click();
      await fold.locator('p').first().waitFor();
      const [fold_, row] = await Promise.all([fold.boundingBox(), page.locator('li', { has: page.locator('.spoils[open]') }).boundingBox()]);
      assert.ok(fold_.width >= row.width - 1, 'the names have the whole width');
      await shot('spoils-open');
      assert.equal(await sidewaysOverflow(page), 0);
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('speaks of the one Stop where there is only one', async () => {
    const { page, close } = await site.open(PHONE);
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
    for (let question = 0; question < 5; question += 1) await page.locator('.guide .go-on').click();
    await page.locator('.guide').waitFor({ state: 'detached' });
    assert.equal(await page.locator('article[data-verdict="Stop"]').count(), 0, 'nothing stops at first');
    await enter(page, 'base.clearance', '0');
    await showPanel(page, 'verdicts');
    assert.deepEqual(await page.locator('article[data-verdict="Stop"] .title').allTextContents(), ['Room under the vessel']);
    const steps = page.locator('.best-step li', { hasText: 'Base: vessel above ground' });
    await steps.filter({ hasText: '1 → 0 Stops' }).waitFor({ timeout: 20_000 });
    await close();
  });

  it('shows machine and verdicts side by side on a phone laid on its side', async () => {
    const { page, shot, close } = await site.open(ON_ITS_SIDE);
    const box = (selector) => page.locator(selector).first().boundingBox();
    for (const panel of ['verdicts', 'numbers', 'charts', 'designs']) {
      await showPanel(page, panel);
      await page.evaluate(() => window.scrollTo(0, 0));
      const [machine, beside] = [await box('.drawing > svg'), await box(`#panel-${panel}`)];
      assert.ok(beside.x >= machine.x + machine.width - 1, `${panel} stands beside the machine`);
      assert.ok(beside.y < 0.5 * 360 && beside.width > 350, `${panel} begins high up: ${beside.y}, ${beside.width} px wide`);
      assert.ok(machine.height >= 140, `${machine.height} px high`);
      assert.equal(await sidewaysOverflow(page), 0, panel);
      await shot(panel);
    }
    for (const panel of ['train', 'workshop']) {
      await showPanel(page, panel);
      assert.ok((await box(`#panel-${panel}`)).width > 700, `${panel} has the whole width`);
      await shot(panel);
    }
    await close();
  });
});

/** In the page: what the labels of the figure say, which leave it, and which lie on each other or on slashes of dimensions. */
function labels(svg) {
  const frame = svg.getBoundingClientRect();
  const scale = svg.getScreenCTM().a;
  const seen = [...svg.querySelectorAll('.notes-of-drawing text')].filter((text) => getComputedStyle(text).display !== 'none');
  // The lines of a text, as high as its letters.
  const boxes = seen.map((text) => {
    const { left, right, top, bottom } = text.getBoundingClientRect();
    const inset = 0.14 * parseFloat(getComputedStyle(text).fontSize) * scale;
    return { name: text.textContent, left, right, top: top + inset, bottom: bottom - inset };
  });
  const slashes = [...svg.querySelectorAll('.notes-of-drawing .dimension-end')].map((slash) => {
    const { left, right, top, bottom } = slash.getBoundingClientRect();
    return { name: 'slash', left, right, top, bottom };
  });
  const overlap = (one, other) =>
    Math.min(one.right, other.right) - Math.max(one.left, other.left) > 1 &&
    Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 1;
  return {
    texts: boxes.map(({ name }) => name),
    outside: boxes
      .filter(({ left, right, top, bottom }) => left < frame.left - 1 || right > frame.right + 1 || top < frame.top - 1 || bottom > frame.bottom + 1)
      .map(({ name }) => name),
    overlaps: boxes.flatMap((one, place) =>
      [...boxes.slice(place + 1), ...slashes].filter((other) => overlap(one, other)).map((other) => `${one.name} on ${other.name}`),
    ),
  };
}
