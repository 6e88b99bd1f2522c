// The first questions: five at most, each may be skipped, and a complete design at the end.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, appIsThere, sidewaysOverflow, start } from './lib/app.mjs';
import { enter, field, keptWith, noticed, showPanel, tabTo, verdicts } from './lib/screen.mjs';

const POWER = 'engine.wanted_power';
const QUESTIONS = 5;

const press = (page, name) => page.locator('.guide').getByRole('button', { name, exact: true }).click();

/** Waits until this question is asked, counted from one. */
const asked = (page, number) => page.locator('.guide .count', { hasText: `Question ${number} of ${QUESTIONS}` }).waitFor();

/** What somebody measured: path of the field, and what is typed there. */
const HEARTH = {
  'hearth.throat_diameter': '83',
  'hearth.nozzle_ring_diameter': '205',
  'hearth.below_throat_diameter': '190',
  'hearth.nozzle_height': '105',
  'hearth.straight_below_nozzles': '15',
  'hearth.nozzle_count': '5',
  'hearth.nozzle_bore': '10',
};
const VESSEL = {
  'real_vessel.girth': '1131',
  'real_vessel.length': '900',
  'real_vessel.sheet': '3',
  'real_vessel.lower_seam': '70',
  'real_vessel.upper_seam': '830',
  'real_vessel.long_seam': '100',
};

/** Types all of it. */
async function measured(page, figures) {
  for (const [path, text] of Object.entries(figures)) await enter(page, path, text);
}

/** A visit at the first question. */
async function begin(site, size, options) {
  const visit = await site.open(size, options);
  await visit.page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
  await asked(visit.page, 1);
  return visit;
}

/** Waits until the questions are over and the design is complete. */
async function completed(page) {
  await page.locator('.guide').waitFor({ state: 'detached' });
  await page.locator('#panel-verdicts').waitFor({ state: 'visible' });
  return Object.entries(await verdicts(page)).filter(([, verdict]) => verdict === 'Stop');
}

describe('first questions', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`leave a complete design, as one step, on a ${size.name}`, async () => {
      const visit = await begin(site, size);
      const { page } = visit;
      const first = await (await field(page, POWER)).inputValue();
      await enter(page, POWER, '12 kW');
      for (let number = 1; number <= QUESTIONS; number += 1) {
        await asked(page, number);
        assert.deepEqual(await visit.seriousProblems(), [], `question ${number}`);
        assert.equal(await sidewaysOverflow(page), 0, `question ${number}`);
        await visit.shot(`question-${number}`);
        if (number < QUESTIONS) await press(page, 'Next');
      }
      await page.getByLabel('Throat and fire tube are built').check();
      await page.locator('.guide [data-input="hearth.throat_diameter"]').waitFor();
      await page.getByLabel('Throat and fire tube are built').uncheck();
      await press(page, 'Finish');
      assert.deepEqual(await completed(page), [], 'nothing fails');
      await visit.shot('questions-answered');

      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      assert.equal(await (await field(page, POWER)).inputValue(), first, 'one step takes answers and sizes back');
      assert.ok(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled());
      assert.deepEqual(visit.errors, []);
      await visit.close();
    });
  }

  it('keep what is there already as it was entered', async () => {
    const { page, close } = await begin(site, PHONE);
    for (let number = 1; number < QUESTIONS; number += 1) await press(page, 'Next');
    await page.getByLabel('Throat and fire tube are built').check();
    await measured(page, HEARTH);
    await press(page, 'Finish');
    await completed(page);
    assert.equal(await (await field(page, 'hearth.throat_diameter')).inputValue(), '83');
    await close();
  });

  it('let no figure of theirs stand for what was measured', async () => {
    const visit = await begin(site, PHONE);
    const { page, errors, close } = visit;
    const value = async (path) => (await field(page, path)).inputValue();
    await page.getByLabel('I know the engine').check();
    assert.equal(await value('engine.displacement'), '', 'it begins empty');
    assert.equal(await page.locator('.guide p.wrong').count(), 0, 'nothing is said before it is asked for');
    await press(page, 'Next');
    await page.waitForFunction(() => document.activeElement.dataset.input === 'engine.displacement');
    assert.match(await page.locator('.guide > .wrong').innerText(), /Not filled in yet: type what the plate tells/);
    await visit.shot('question-untyped');
    await enter(page, 'engine.displacement', '1.6 L');
    await page.getByLabel('I know the engine').uncheck();
    await page.getByLabel('I know the engine').check();
    assert.match(await value('engine.displacement'), /^1\.6/, 'what was typed is still there');
    assert.equal(await value('engine.speed'), '');
    await enter(page, 'engine.speed', '1800 1/min');
    await press(page, 'Next');
    await asked(page, 2);
    for (let number = 2; number < QUESTIONS; number += 1) await press(page, 'Next');
    await page.getByLabel('I have a steel vessel, to be lined').check();
    await page.locator('.guide .caution', { hasText: 'used fuel container' }).waitFor();
    assert.equal(await value('real_vessel.girth'), '');
    await press(page, 'Finish');
    await page.waitForFunction(() => document.activeElement.dataset.input === 'real_vessel.girth');
    await page.getByLabel('I have a steel vessel, to be lined').uncheck();
    await press(page, 'Finish');
    await completed(page);
    assert.equal((await verdicts(page))['marking.cut_wrong'], 'Good', 'whoever has no vessel rolls one as planned');
    assert.match(await value('engine.displacement'), /^1\.6/);

    // Cut short, a part of which nothing was typed is not there.
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
    await asked(page, 1);
    await page.getByLabel('I know the engine').check();
    await press(page, 'Skip the rest');
    await completed(page);
    assert.notEqual(await value('engine.displacement'), '');
    assert.deepEqual(errors, []);
    await close();
  });

  it('stay at a field whose text cannot be used, until it can or is passed over', async () => {
    const visit = await begin(site, PHONE);
    const { page, errors, close } = visit;
    const focused = () => page.evaluate(() => document.activeElement.dataset.input);
    await press(page, 'Next');
    await asked(page, 2);
    await enter(page, 'fuel.piece_size', 'abc');
    await press(page, 'Next');
    await page.waitForFunction(() => document.activeElement.dataset.input === 'fuel.piece_size');
    await asked(page, 2);
    assert.match(await page.locator('#said').textContent(), /^Wood: piece size: .*Allowed/);
    await visit.shot('question-rejected');

    await press(page, 'Back');
    await asked(page, 1);
    await press(page, 'Next');
    await asked(page, 2);
    assert.equal(await (await field(page, 'fuel.piece_size')).inputValue(), 'abc', 'what was typed is still there');
    await enter(page, 'fuel.piece_size', '40');
    await press(page, 'Next');
    await asked(page, 3);

    for (let number = 3; number < QUESTIONS; number += 1) await press(page, 'Next');
    await page.getByLabel('Throat and fire tube are built').check();
    await enter(page, 'hearth.throat_diameter', 'wide');
    await press(page, 'Finish');
    await page.waitForFunction(() => document.activeElement.dataset.input === 'hearth.throat_diameter');
    await asked(page, QUESTIONS);
    await page.getByLabel('Throat and fire tube are built').uncheck();
    await press(page, 'Finish');
    assert.deepEqual(await completed(page), []);

    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
    await asked(page, 1);
    await enter(page, POWER, 'much');
    await press(page, 'Skip the rest');
    await completed(page);
    assert.equal(await (await field(page, POWER)).inputValue(), 'much');
    assert.equal(await focused(), undefined);
    assert.deepEqual(errors, []);
    await close();
  });

  for (const size of SIZES) {
    it(`say beside Finish what is wrong, with its field in sight, on a ${size.name}`, async () => {
      const visit = await begin(site, size);
      const { page } = visit;
      for (let number = 1; number < QUESTIONS; number += 1) await press(page, 'Next');
      await page.getByLabel('I have a steel vessel, to be lined').check();
      await enter(page, 'real_vessel.girth', 'wide');
      await press(page, 'Finish');
      await page.waitForFunction(() => document.activeElement.dataset.input === 'real_vessel.girth');
      await page.waitForTimeout(300);
      const inSight = await page.evaluate(() => {
        const { left, top, width, height } = document.activeElement.getBoundingClientRect();
        return document.elementFromPoint(left + width / 2, top + height / 2) === document.activeElement;
      });
      assert.ok(inSight, 'nothing lies over the field');
      assert.match(await page.locator('.guide > .wrong').innerText(), /^Not yet\. .*circumference/i);
      await visit.shot('question-not-yet');
      await enter(page, 'real_vessel.girth', '1131');
      assert.equal(await page.locator('.guide > .wrong').count(), 0, 'said until it is mended');

      await measured(page, VESSEL);
      await enter(page, 'real_vessel.lower_seam', '');
      await enter(page, 'real_vessel.upper_seam', '');
      await press(page, 'Finish');
      const stops = (await completed(page)).map(([question]) => question);
      assert.ok(!stops.includes('hearth.inside') && !stops.includes('electrics.box'), `${stops}`);
      assert.equal(await (await field(page, 'real_vessel.lower_seam')).inputValue(), '0');
      assert.equal(await (await field(page, 'real_vessel.upper_seam')).inputValue(), '0', 'no seam is told as 0');
      assert.deepEqual(visit.errors, []);
      await visit.close();
    });
  }

  it('tell what could not be made to pass, in words', async () => {
    const visit = await begin(site, PHONE);
    const { page } = visit;
    for (let number = 1; number < QUESTIONS; number += 1) await press(page, 'Next');
    await page.getByLabel('I have a steel vessel, to be lined').check();
    await measured(page, { ...VESSEL, 'real_vessel.girth': '800' });
    await press(page, 'Finish');
    const stops = await completed(page);
    assert.ok(stops.some(([question]) => question === 'hearth.inside'));
    const notice = page.locator('#unmet');
    assert.match(await notice.innerText(), /^Complete, but it still stops at: /);
    await page.waitForFunction(() => document.activeElement.id === 'unmet' && scrollY === 0);
    const looks = () => notice.evaluate((notice) => {
      const { top, bottom } = notice.getBoundingClientRect();
      const around = notice.closest('.notices');
      return { top, bottom, isCut: around.scrollHeight > around.clientHeight };
    });
    const { top, bottom, isCut } = await looks();
    assert.ok(top >= 0 && bottom - top < 150 && bottom < 370, `${top} to ${bottom}`);
    assert.ok(!isCut, 'nothing of it has to be scrolled to');
    await visit.shot('questions-not-all');
    await notice.getByRole('button', { name: 'More', exact: true }).click();
    assert.match(await notice.innerText(), /too small for wood and engine: .* plain steel pipe of about 340 mm across/);
    assert.ok(!(await looks()).isCut);
    assert.deepEqual(await visit.seriousProblems(), []);
    await visit.shot('questions-not-all-more');
    const note = await (await field(page, 'about.note')).inputValue();
    assert.match(note, /^From the first questions/);
    assert.doesNotMatch(note, /stop|too narrow/, 'the note holds what lasts');
    await visit.close();
  });

  it('tell above the page that the wood is reckoned smaller than it was answered', async () => {
    const { page, errors, close } = await begin(site, PHONE);
    await enter(page, POWER, '9 kW');
    await press(page, 'Next');
    await enter(page, 'fuel.piece_size', '120');
    for (let number = 2; number < QUESTIONS; number += 1) await press(page, 'Next');
    await press(page, 'Finish');
    assert.deepEqual(await completed(page), []);
    const notice = page.locator('#unmet');
    assert.match(await notice.innerText(), /^Complete, but for smaller wood\. Wood pieces of 120 mm .* reckoned with pieces of \d\d mm/);
    await page.waitForFunction(() => document.activeElement.id === 'unmet' && scrollY === 0);
    await enter(page, 'fuel.piece_size', '20');
    await notice.filter({ hasText: 'Wood pieces' }).waitFor({ state: 'detached' });
    assert.deepEqual(errors, []);
    await close();
  });

  it('ask for the frame by its own name, and tell what became of it', async () => {
    const { page, errors, close } = await begin(site, PHONE);
    for (let number = 1; number < 4; number += 1) await press(page, 'Next');
    await asked(page, 4);
    const entry = page.locator('.guide .field', { has: page.locator('[data-input="base.width"]') });
    assert.match(await entry.locator('label').innerText(), /^Frame over all/);
    assert.match(await entry.locator('.meaning').innerText(), /outside of the frame/);
    assert.doesNotMatch(await entry.innerText(), /contact points/);
    await enter(page, 'base.width', 'wide');
    await press(page, 'Next');
    assert.match(await page.locator('.guide > .wrong').innerText(), /^Not yet\. Frame over all/);
    await enter(page, 'base.width', '900');
    await press(page, 'Next');
    await press(page, 'Finish');
    await completed(page);
    const width = Number(await (await field(page, 'base.width')).inputValue());
    assert.ok(width < 900, `${width}`);
    const told = await page.locator('#unmet').innerText();
    assert.match(told, new RegExp(`^Complete\\. Base: ${width} mm .* between the feet, .* 900 mm `));
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await page.locator('#unmet').waitFor({ state: 'detached' });
    assert.deepEqual(errors, []);
    await close();
  });

  for (const size of SIZES) {
    it(`are steps of the browser’s own way back on a ${size.name}`, async () => {
      const { page, errors, close } = await begin(site, size);
      await enter(page, POWER, '14 kW');
      await press(page, 'Next');
      await press(page, 'Next');
      await asked(page, 3);
      await page.goBack();
      await asked(page, 2);
      await page.goForward();
      await asked(page, 3);
      const steps = await page.evaluate(() => history.length);
      await press(page, 'Back');
      await asked(page, 2);
      assert.equal(await page.evaluate(() => history.length), steps, 'the button goes the same way');
      await press(page, 'Back');
      await asked(page, 1);
      assert.match(await (await field(page, POWER)).inputValue(), /^14/);
      // A field may be gone before it was left.
      await (await field(page, POWER)).focus();
      await page.goForward();
      await asked(page, 2);
      await page.locator('.guide input[data-input]').first().focus();
      await page.goBack();
      await asked(page, 1);
      if (size === PHONE) {
        await page.goBack();
        await page.locator('main[data-panel="verdicts"]').waitFor();
        const notice = page.locator('.notice', { hasText: 'questions are not finished' });
        await notice.getByRole('button', { name: 'Go on' }).click();
        await notice.waitFor({ state: 'detached' });
        await asked(page, 1);
      }
      const printed = async () => {
        await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
        return page.locator('#paper').textContent();
      };
      const unfinished = /first questions are not finished: nothing is sized/;
      assert.match(await printed(), unfinished);
      await press(page, 'Skip the rest');
      await completed(page);
      assert.doesNotMatch(await printed(), unfinished);
      // What is over is passed by, and nothing is asked again.
      if (size === PHONE) {
        await page.goBack();
        await page.locator('main[data-panel="numbers"]').waitFor();
        assert.equal(await page.locator('.guide').count(), 0);
      }
      assert.deepEqual(errors, []);
      await close();
    });

    it(`go on where they were once the page is loaded again, on a ${size.name}`, async () => {
      const { page, errors, close } = await begin(site, size);
      await page.getByLabel('I know the engine').check();
      await enter(page, 'engine.displacement', '1.6 L');
      await keptWith(page, '0.0016');
      await page.reload();
      await appIsThere(page);
      await asked(page, 1);
      assert.ok(await page.getByLabel('I know the engine').isChecked());
      const value = async (path) => (await field(page, path)).inputValue();
      assert.match(await value('engine.displacement'), /^1\.6/);
      assert.equal(await value('engine.speed'), '', 'no figure of ours stands for what is not typed yet');
      await enter(page, 'engine.speed', '1800 1/min');
      await press(page, 'Next');
      await press(page, 'Next');
      await asked(page, 3);
      await enter(page, 'fuel.moisture', 'damp');
      await keptWith(page, 'damp');
      await page.reload();
      await appIsThere(page);
      await asked(page, 3);
      assert.equal(await value('fuel.moisture'), 'damp');
      await page.goBack();
      await asked(page, 2);
      await page.goForward();
      await asked(page, 3);
      await enter(page, 'fuel.moisture', '15');
      await press(page, 'Skip the rest');
      await completed(page);
      assert.match(await value('engine.displacement'), /^1\.6/);
      await keptWith(page, 'From the first questions');
      await page.reload();
      await appIsThere(page);
      assert.equal(await page.locator('.guide').count(), 0, 'they are over');
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('stay open in a design that is left for another', async () => {
    const { page, errors, close } = await begin(site, PHONE);
    await enter(page, POWER, '14 kW');
    await press(page, 'Next');
    await press(page, 'Next');
    await asked(page, 3);
    await keptWith(page, '14000');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
    await noticed(page, 'The first questions of “My machine” are not finished');
    await page.locator('.notice', { hasText: 'not finished' }).getByRole('button', { name: 'Go on' }).click();
    await asked(page, 3);
    await page.locator('main[data-panel="numbers"]').waitFor();
    await press(page, 'Back');
    await press(page, 'Back');
    await asked(page, 1);
    assert.match(await (await field(page, POWER)).inputValue(), /^14/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('say which Stop no best step removes', async () => {
    const { page, errors, close } = await begin(site, DESKTOP);
    await enter(page, POWER, '6.2 kW');
    await page.getByLabel('I know the engine').check();
    await enter(page, 'engine.displacement', '389 ccm');
    await enter(page, 'engine.speed', '3000');
    await press(page, 'Next');
    await press(page, 'Next');
    await enter(page, 'fuel.moisture', '18');
    await press(page, 'Skip the rest');
    await completed(page);
    const left = page.locator('.best-step [data-left]');
    await left.waitFor({ timeout: 60_000 });
    assert.match(await left.innerText(), /still stops.*Power on wood gas/);
    const power = page.locator('article[data-finding="engine.power"] .compared');
    assert.match(await power.innerText(), /another engine, of about 0\.6/);
    const notice = page.locator('#unmet');
    assert.match(await notice.innerText(), /still stops at: Power on wood gas/);
    await notice.getByRole('button', { name: 'More', exact: true }).click();
    assert.match(await notice.innerText(), /not the 6\.2 kW wanted/);
    await enter(page, POWER, '2 kW');
    await notice.filter({ hasText: 'wanted' }).waitFor({ state: 'detached' });
    assert.doesNotMatch(await (await field(page, 'about.note')).inputValue(), /stop|wanted/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('count no vessel as measured before all of it is typed', async () => {
    const { page, errors, close } = await begin(site, PHONE);
    for (let number = 1; number < QUESTIONS; number += 1) await press(page, 'Next');
    await page.getByLabel('I have a steel vessel, to be lined').check();
    await enter(page, 'real_vessel.girth', VESSEL['real_vessel.girth']);
    await keptWith(page, '1.131');
    await press(page, 'Straight to the numbers');
    await page.locator('.notices').getByText('counts as not measured').waitFor();
    await page.reload();
    await appIsThere(page);
    assert.equal((await verdicts(page))['marking.cut_wrong'], "Can't tell");
    assert.deepEqual(errors, []);
    await close();
  });

  it('take a question’s message away with the question', async () => {
    const { page, errors, close } = await begin(site, PHONE);
    for (let number = 1; number < QUESTIONS; number += 1) await press(page, 'Next');
    await page.getByLabel('Throat and fire tube are built').check();
    await press(page, 'Finish');
    await page.locator('.guide > .wrong').waitFor();
    await press(page, 'Back');
    await asked(page, QUESTIONS - 1);
    assert.equal(await page.locator('.guide > .wrong').count(), 0);
    assert.deepEqual(errors, []);
    await close();
  });

  it('can be left and cut short at every step', async () => {
    for (let skipped = 0; skipped < QUESTIONS; skipped += 1) {
      const { page, errors, close } = await begin(site, PHONE);
      for (let number = 1; number <= skipped; number += 1) await press(page, 'Next');
      await asked(page, skipped + 1);
      await press(page, 'Straight to the numbers');
      await page.locator('.guide').waitFor({ state: 'detached' });
      await page.locator('#panel-numbers details.group').first().waitFor({ state: 'visible' });
      assert.ok(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled(), 'nothing was changed');

      await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
      for (let number = 1; number <= skipped; number += 1) await press(page, 'Next');
      await asked(page, skipped + 1);
      await press(page, skipped + 1 < QUESTIONS ? 'Skip the rest' : 'Finish');
      assert.deepEqual(await completed(page), []);
      assert.deepEqual(errors, []);
      await close();
    }
  });

  it('can be answered with the keyboard alone', async () => {
    const { page, errors, close } = await begin(site, DESKTOP);
    await tabTo(page, `[data-input="${POWER}"]`);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('9 kW');
    for (let number = 1; number <= QUESTIONS; number += 1) {
      await asked(page, number);
      // A frame after it is asked a question has the focus.
      if (number > 1) await page.waitForFunction(() => document.activeElement.matches('.guide h2'));
      await tabTo(page, '.guide .go-on');
      await page.keyboard.press('Enter');
    }
    assert.deepEqual(await completed(page), []);
    assert.match(await page.locator('#said').textContent(), /complete/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('have targets for thumbs', async () => {
    const { page, close } = await begin(site, PHONE);
    const sizes = await page.locator('.guide button:visible').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    assert.ok(sizes.length >= 3);
    assert.ok(sizes.every((height) => height >= 44), `${sizes}`);
    await close();
  });
});
