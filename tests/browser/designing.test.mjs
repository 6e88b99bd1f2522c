// Working on a design: numbers in, verdicts out, mending, undoing, units, keyboard, drawing.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, start } from './lib/app.mjs';
import { answered, enter, field, firstRemedy, shareLink, showPanel, tabTo, verdicts } from './lib/screen.mjs';

const WIDTH = 'base.width';

describe('designing', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('says of its default only while that stands, and moves nothing while one types', async () => {
    const { page, close } = await site.open(PHONE);
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
    await page.locator('.guide').getByRole('button', { name: 'Straight to the numbers' }).click();
    await page.locator('.guide').waitFor({ state: 'detached' });
    const entry = await field(page, WIDTH);
    const notes = page.locator('.field', { has: page.locator(`[data-input="${WIDTH}"]`) });
    const height = async () => (await notes.boundingBox()).height;
    await entry.fill('');
    await entry.fill('871');
    const while_typed = await height();
    await entry.fill('872');
    assert.equal(await height(), while_typed);
    assert.equal(await notes.locator('.source').isVisible(), false, 'it is a value of one\'s own now');
    await entry.blur();
    await entry.focus();
    assert.equal(await notes.locator('.source').isVisible(), false);
    await close();
  });

  for (const size of SIZES) {
    it(`moves nothing while the first figures of a number lie below its range on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      const entry = await field(page, WIDTH);
      await entry.focus();
      await entry.selectText();
      const tops = () =>
        page.evaluate(
          (path) => ['.drawing > svg', `[data-input="${path}"]`].map((one) => Math.round(document.querySelector(one).getBoundingClientRect().top)),
          WIDTH,
        );
      const before = await tops();
      for (const [typed, isWrong] of [['6', true], ['66', true], ['660', false]]) {
        await page.keyboard.type(typed.at(-1));
        await page.waitForFunction(([path, text]) => document.querySelector(`[data-input="${path}"]`).value === text, [WIDTH, typed]);
        assert.equal(await entry.getAttribute('aria-invalid'), isWrong ? 'true' : null, 'the field itself says it at once');
        assert.deepEqual(await tops(), before, typed);
        assert.equal(await page.locator('.stale').count(), 0);
      }
      // Who stops there is told above as well.
      await entry.fill('6');
      await page.locator('.stale', { hasText: 'Base width' }).waitFor();
      await entry.fill('66');
      assert.equal(await page.locator('.stale').count(), 1, 'it does not come and go');
      await entry.fill('660');
      await page.locator('.stale').waitFor({ state: 'detached' });
      // So is who goes on elsewhere.
      await entry.fill('6');
      await entry.blur();
      await page.locator('.stale').waitFor({ timeout: 1_200 });
      assert.deepEqual(errors, []);
      await close();
    });

    it(`opens no gap below a field of one's own that gets the focus on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      const entry = await field(page, WIDTH);
      await entry.fill('871');
      const box = page.locator('.field', { has: page.locator(`[data-input="${WIDTH}"]`) });
      const height = async () => (await box.boundingBox()).height;
      await page.locator('#group-base > summary').focus();
      await box.locator('.plus-minus > summary').waitFor({ state: 'hidden' });
      const before = await height();
      await entry.focus();
      const sure = box.locator('.plus-minus > summary');
      await sure.waitFor({ state: 'visible' });
      assert.equal(await height(), before);
      const covers = await sure.evaluate((sure) => {
        const { left, top } = sure.getBoundingClientRect();
        const label = sure.closest('.field').querySelector('label');
        const words = document.createRange();
        words.selectNodeContents(label);
        return [...words.getClientRects()].some((line) => line.right > left && line.bottom > top);
      });
      assert.equal(covers, false, 'it covers nothing of the label');
      assert.deepEqual(errors, []);
      await close();
    });
  }

  for (const size of SIZES) {
    it(`answers a wider base with Good where it said Stop on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      const before = await verdicts(page);
      assert.equal(before['standing.push'], 'Stop', 'the first sketch is easily pushed over');
      await enter(page, WIDTH, '1.2 m');
      await answered(page, 'standing.push', 'Good');
      await enter(page, WIDTH, '410');
      await answered(page, 'standing.push', 'Stop');
      assert.deepEqual(errors, []);
      await close();
    });

    it(`mends a failing question by its button, and takes it back, on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      const before = await verdicts(page);
      const { question, button } = await firstRemedy(page);
      await button.click();
      await answered(page, question, 'Good');
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await answered(page, question, 'Stop');
      assert.deepEqual(await verdicts(page), before);
      await page.getByRole('button', { name: 'Redo', exact: true }).click();
      await answered(page, question, 'Good');
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('is driven by the keyboard alone', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await tabTo(page, `[data-input="${WIDTH}"]`);
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('1200');
    await answered(page, 'standing.push', 'Good');
    await page.keyboard.press('ControlOrMeta+z');
    await answered(page, 'standing.push', 'Stop');

    await page.waitForSelector('article[data-verdict="Stop"] button.apply');
    await page.evaluate(() => document.activeElement.blur());
    await tabTo(page, 'article[data-verdict="Stop"] button.apply');
    const question = await page.evaluate(() => document.activeElement.closest('article').dataset.finding);
    await page.keyboard.press('Enter');
    await answered(page, question, 'Good');
    await page.waitForFunction(() => document.activeElement.id === 'undo');
    assert.match(await page.locator('#said').innerText(), /^Done: .*Undo takes it back/);
    await page.keyboard.press('ControlOrMeta+z');
    await answered(page, question, 'Stop');
    assert.deepEqual(errors, []);
    await close();
  });

  it('shows the reasons and the working behind a verdict', async () => {
    const { page, close } = await site.open(PHONE);
    const { question } = await firstRemedy(page);
    const article = page.locator(`article[data-finding="${question}"]`);
    await article.locator('button[aria-expanded="false"]').first().click();
    await article.locator('.working .formula').first().waitFor();
    assert.match(await article.innerText(), /\d/);
    await close();
  });

  it('switches units and leaves the design as it is', async () => {
    const { page, close } = await site.open(DESKTOP);
    const before = await shareLink(page);
    const metric = await (await field(page, WIDTH)).inputValue();
    const answers = await verdicts(page);
    await page.getByRole('button', { name: /inch units/i }).click();
    const inches = await (await field(page, WIDTH)).inputValue();
    assert.equal(metric, '410');
    assert.match(inches, /^16[ .]/);
    assert.deepEqual(await verdicts(page), answers);
    assert.equal(await shareLink(page), before);
    await page.getByRole('button', { name: /metric units/i }).click();
    assert.equal(await (await field(page, WIDTH)).inputValue(), '410');
    assert.equal(await shareLink(page), before);
    await close();
  });

  it('takes numbers the way people say them', async () => {
    const { page, close } = await site.open(DESKTOP);
    const link = async (text) => {
      await enter(page, WIDTH, text);
      return shareLink(page);
    };
    const wanted = await link('0.6604 m');
    for (const text of ['26 in', '2 ft 2 in', `2' 2"`, '66,04 cm', '660.4']) {
      assert.equal(await link(text), wanted, text);
    }
    await enter(page, WIDTH, '26 in');
    const entry = page.locator('.field', { has: await field(page, WIDTH) });
    assert.match(await entry.locator('.other-system').innerText(), /^= 660 mm$/);
    assert.equal(await entry.locator('.unit').innerText(), '', 'the unit typed stands alone');
    await enter(page, WIDTH, '2 ft 2 in');
    assert.match(await entry.locator('.other-system').innerText(), /^= 660 mm = 26 in$/);
    await page.getByRole('button', { name: 'in, inch units' }).click();
    for (const [typed, beside] of [['2 ft 2 in', '= 26 in = 660 mm'], ['26 in', '= 660 mm'], ['660 mm', '= 26 in'], ['26', '= 660 mm'], ['26.5', '= 26 1/2 in = 673 mm'], ['33,86', '≈ 33 7/8 in = 860 mm']]) {
      await enter(page, WIDTH, typed);
      assert.equal(await entry.locator('.other-system').innerText(), beside, typed);
    }
    await page.getByRole('button', { name: 'mm, metric units' }).click();
    await enter(page, WIDTH, '26');
    assert.match(await entry.getByRole('alert').innerText(), /between .*\. If you mean 26 in, type the unit too\./);
    assert.equal(await entry.locator('.other-system').innerText(), '', 'nothing is said of what cannot be used');
    // In the other units the same figures are read again.
    await page.getByRole('button', { name: 'in, inch units' }).click();
    await entry.getByRole('alert').waitFor({ state: 'detached' });
    assert.equal(await (await field(page, WIDTH)).inputValue(), '26');
    assert.equal(await shareLink(page), wanted);
    await enter(page, WIDTH, '900');
    await page.getByRole('button', { name: 'mm, metric units' }).click();
    await entry.getByRole('alert').waitFor({ state: 'detached' });
    assert.equal(await (await field(page, WIDTH)).inputValue(), '900');
    await close();
  });

  for (const size of SIZES) {
    it(`keeps a text that is no number, says why, and marks the result as old, on a ${size.name}`, async () => {
      const { page, close } = await site.open(size);
      const before = await verdicts(page);
      await enter(page, WIDTH, '41 kg');
      const entry = await field(page, WIDTH);
      assert.equal(await entry.getAttribute('aria-invalid'), 'true');
      const reason = page.locator('.field', { has: entry }).getByRole('alert');
      assert.match(await reason.innerText(), /kg/);
      await page.locator('.stale').first().waitFor({ state: 'visible' });
      const leading = page.locator('.summary').getByRole('button', { name: 'Base width' });
      await showPanel(page, 'verdicts');
      await leading.click();
      await page.waitForFunction((path) => document.activeElement.dataset.input === path, WIDTH);
      assert.deepEqual(await verdicts(page), before, 'the last good answers stay');
      await showPanel(page, 'verdicts');
      assert.equal(await (await field(page, WIDTH)).inputValue(), '41 kg');
      await enter(page, WIDTH, '99 m');
      assert.match(await reason.innerText(), /between/);
      await enter(page, WIDTH, '1200');
      await page.locator('.stale').first().waitFor({ state: 'detached' });
      await answered(page, 'standing.push', 'Good');
      await close();
    });
  }

  it('keeps what is typed and refused while other numbers change, are undone, and items move', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await showPanel(page, 'numbers');
    const group = page.locator('details.group', { hasText: 'Other parts' });
    if (!(await group.evaluate(({ open }) => open))) await group.locator('> summary').click();
    const items = group.locator('#list-parts .item');
    await items.nth(1).locator('summary').click();
    await enter(page, 'parts.1.name', 'x'.repeat(200));
    await enter(page, WIDTH, '41 kg');
    const typed = async (path, text) => {
      const entry = await field(page, path);
      assert.equal(await entry.inputValue(), text);
      assert.equal(await entry.getAttribute('aria-invalid'), 'true', path);
      const notes = page.locator(`[id="${await entry.getAttribute('aria-describedby')}"]`);
      assert.equal(await notes.getByRole('alert').count(), 1, path);
    };
    const { button } = await firstRemedy(page);
    await button.click();
    await typed(WIDTH, '41 kg');
    await typed('parts.1.name', 'x'.repeat(200));
    await page.locator('#parts-up-1').click();
    await typed('parts.0.name', 'x'.repeat(200));
    await page.keyboard.press('ControlOrMeta+z');
    await items.nth(1).locator('summary').click();
    await typed('parts.1.name', 'x'.repeat(200));
    await typed(WIDTH, '41 kg');
    assert.ok(await page.locator('.stale').first().isVisible());
    // Once no step is left, one undo more brings the last good numbers back.
    const width = await field(page, WIDTH);
    while ((await width.getAttribute('aria-invalid')) === 'true') await page.locator('#undo').click();
    assert.ok(await page.locator('#undo').isDisabled());
    assert.notEqual(await width.inputValue(), '41 kg');
    assert.deepEqual(errors, []);
    await close();
  });

  it('asks whether a bare number is a gauge where cable goes by gauges', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await (await field(page, 'wiring.system')).selectOption('gauge');
    const cable = await field(page, 'wiring.blower_cable');
    const box = page.locator('.field', { has: cable });
    await cable.fill('14');
    await box.getByText('write 14 AWG or 14 mm²').waitFor();
    await cable.fill('14 AWG');
    await box.getByText('= AWG 14').waitFor();
    assert.equal(await cable.getAttribute('aria-invalid'), null);
    assert.deepEqual(errors, []);
    await close();
  });

  it('marks a plus-minus that cannot be used at its field', async () => {
    const { page, close } = await site.open(DESKTOP);
    const entry = await field(page, WIDTH);
    const box = page.locator('.field', { has: entry });
    await entry.focus();
    await box.locator('.plus-minus > summary').click();
    const spread = box.locator('[data-spread]');
    await spread.fill('5 kg');
    await spread.press('Tab');
    await box.locator('.plus-minus').getByRole('alert').waitFor();
    assert.equal(await spread.getAttribute('aria-invalid'), 'true');
    const notes = page.locator(`[id="${await spread.getAttribute('aria-describedby')}"]`);
    assert.match(await notes.innerText(), /kg/);

    // It goes with what it was typed in: the units, and the state of the design.
    const alert = box.locator('.plus-minus').getByRole('alert');
    await page.getByRole('button', { name: /inch units/i }).click();
    await alert.waitFor({ state: 'detached' });
    assert.equal(await spread.inputValue(), '');
    await page.getByRole('button', { name: /metric units/i }).click();
    await enter(page, WIDTH, '900');
    await spread.fill('-5');
    await spread.press('Tab');
    await alert.getByText('between 0 mm and 2900 mm').waitFor();
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await alert.waitFor({ state: 'detached' });
    assert.equal(await spread.inputValue(), '');
    await close();
  });

  for (const size of SIZES) {
    it(`shows the machine from above, with every side it can tip over, on a ${size.name}`, async () => {
      const visit = await site.open(size);
      const { page, errors } = visit;
      const angles = () => page.locator('.drawing .notes-of-drawing text').allTextContents();
      await page.getByRole('button', { name: 'Above', exact: true }).click();
      await page.locator('.drawing path.footprint').waitFor();
      const before = (await angles()).filter((text) => text.endsWith('°'));
      assert.equal(before.length, 4, `${before}`);
      assert.ok(before.every((text) => /^tips at \d/.test(text)), `${before}`);
      assert.ok(await page.locator('#tilt').isDisabled(), 'nothing tilts from above');
      assert.equal(await page.locator('.drawing .grip').count(), 0);
      await visit.shot('from-above');
      await enter(page, WIDTH, '900');
      await page.waitForFunction(
        (old) => [...document.querySelectorAll('.drawing .notes-of-drawing text')].every(({ textContent }) => textContent !== old),
        before.toSorted((one, other) => Number.parseFloat(one.slice(8)) - Number.parseFloat(other.slice(8)))[0],
      );
      assert.ok((await angles()).includes('900 mm'));
      await page.getByRole('button', { name: 'Front', exact: true }).click();
      await page.locator('.drawing path.footprint').waitFor({ state: 'detached' });
      assert.ok(await page.locator('#tilt').isEnabled());
      assert.deepEqual(errors, []);
      await visit.close();
    });
  }

  it('has the way back at hand where the header has scrolled away on a phone', async () => {
    const { page, close } = await site.open(PHONE);
    const back = page.getByRole('button', { name: 'Undo the last step' });
    assert.ok(await back.isHidden(), 'nothing to take back yet');
    await enter(page, WIDTH, '900');
    await page.evaluate(() => window.scrollTo(0, 0));
    // The one in the header is enough; where it scrolls to shows with the next frame.
    await back.waitFor({ state: 'hidden' });
    await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    await back.waitFor();
    const box = await back.boundingBox();
    assert.ok(box.y >= 0 && box.y + box.height < 250, `in the corner of the drawing: ${box.y}`);
    assert.ok(box.width >= 44 && box.height >= 44);
    await back.click();
    assert.equal(await (await field(page, WIDTH)).inputValue(), '410');
    await close();
  });

  it('counts the fields that cannot be used, and leads to the first', async () => {
    const { page, errors, close } = await site.open(PHONE);
    for (const path of ['base.width', 'base.depth', 'hopper.height']) await enter(page, path, '9 lb');
    const stale = page.locator('.summary .stale');
    await stale.filter({ hasText: 'Base depth and 2 more fields need correcting' }).waitFor();
    await enter(page, 'base.depth', '900');
    await stale.filter({ hasText: 'Base width and 1 more field need correcting' }).waitFor();
    await stale.getByRole('button').click();
    await page.waitForFunction(() => document.activeElement.matches('[data-input="base.width"]'));
    assert.deepEqual(errors, []);
    await close();
  });

  it('lets the drawn machine go over when the ground is tilted', async () => {
    const { page, errors, close } = await site.open(PHONE);
    const figure = page.locator('figure.drawing');
    const fallen = () => page.locator('.fallen').count();
    assert.equal(await fallen(), 0);
    const said = await page.locator('#drawing-text').textContent();
    await page.locator('#tilt').fill('20');
    await page.locator('.fallen').waitFor({ state: 'attached' });
    assert.match(await figure.textContent(), /goes over/);
    assert.notEqual(await page.locator('#drawing-text').textContent(), said);
    await page.locator('#tilt').fill('0');
    await page.locator('.fallen').waitFor({ state: 'detached' });
    assert.deepEqual(errors, []);
    await close();
  });

  it('says what a slope does, and reaches the slope at which the machine goes over', async () => {
    const { page, errors, seriousProblems, close } = await site.open(PHONE);
    const slider = page.locator('#tilt');
    const said = (words) => page.waitForFunction((words) => document.querySelector('#said').textContent.includes(words), words);
    assert.equal(await slider.getAttribute('aria-valuetext'), 'level');
    await slider.fill('2');
    assert.match(await slider.getAttribute('aria-valuetext'), /^2.*° to the right: stands$/);
    await slider.fill('-25');
    await said('to the left: goes over');
    assert.match(await slider.getAttribute('aria-valuetext'), /^25.*° to the left: goes over$/);
    await slider.fill('0');
    await said('stands again');
    const first = Number(await slider.getAttribute('max'));
    assert.ok(first >= 30, `${first}`);

    // A machine that stands better can be made to go over too.
    for (const path of [WIDTH, 'base.depth']) await enter(page, path, '1500');
    await page.waitForFunction((first) => Number(document.querySelector('#tilt').max) > first, first);
    const most = await slider.getAttribute('max');
    assert.ok(Number(most) <= 60, most);
    await slider.fill(most);
    await page.locator('.fallen').waitFor({ state: 'attached' });
    // Where it stands worse again, the slider has no more than is needed.
    for (const path of [WIDTH, 'base.depth']) await enter(page, path, '410');
    await page.waitForFunction((most) => {
      const { max, value } = document.querySelector('#tilt');
      return Number(max) < most && value === max;
    }, Number(most));
    assert.deepEqual(await seriousProblems(), []);
    assert.deepEqual(errors, []);
    await close();
  });

  it('tells about a drawn part that is touched, and leads to its numbers', async () => {
    const { page, errors, close } = await site.open(PHONE);
    const piece = page.locator('[data-piece]').first();
    await piece.focus();
    await page.keyboard.press('Enter');
    const told = page.locator('.touched-piece');
    await told.waitFor();
    await told.getByRole('button', { name: 'Change' }).click();
    await page.locator('#panel-numbers details.group[open]').waitFor();
    assert.deepEqual(errors, []);
    await close();
  });

  it('takes back first what was typed last, and leaves a text beside the design to the browser', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    const THROAT = 'hearth.throat_diameter';
    const value = async (path) => (await field(page, path)).inputValue();
    const before = await value(THROAT);
    await enter(page, THROAT, '77');
    const good = await value(WIDTH);
    await enter(page, WIDTH, 'abc');
    await page.keyboard.press('ControlOrMeta+z');
    assert.equal(await value(WIDTH), good);
    assert.equal(await value(THROAT), '77');
    await page.locator('button', { hasText: 'Designs' }).first().click();
    await page.getByRole('button', { name: /^Rename/ }).first().click();
    await page.waitForFunction(() => document.activeElement.matches('#panel-designs input'));
    await page.keyboard.type('x');
    await page.keyboard.press('ControlOrMeta+z');
    assert.equal(await value(THROAT), '77');
    await (await field(page, THROAT)).focus();
    await page.keyboard.press('ControlOrMeta+z');
    assert.equal(await value(THROAT), before);
    assert.deepEqual(errors, []);
    await close();
  });

  it('adds, copies and removes an item of a list, each step undone by itself', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    const before = await shareLink(page);
    await showPanel(page, 'numbers');
    const group = page.locator('details.group', { hasText: 'Other parts' });
    if (!(await group.evaluate(({ open }) => open))) await group.locator('> summary').click();
    const count = await group.locator('.item').count();
    await group.locator('button.add').click();
    assert.equal(await group.locator('.item').count(), count + 1);
    await group.getByRole('button', { name: /^Copy: / }).click();
    assert.equal(await group.locator('.item').count(), count + 2);
    await group.getByRole('button', { name: /^Remove: / }).click();
    assert.equal(await group.locator('.item').count(), count + 1);
    for (let steps = 0; steps < 3; steps += 1) await page.keyboard.press('ControlOrMeta+z');
    assert.equal(await shareLink(page), before);
    assert.deepEqual(errors, []);
    await close();
  });
});
