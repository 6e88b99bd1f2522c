// Two designs beside each other: an own one, one from a link, and an answer to a link.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, appIsThere, sidewaysOverflow, start } from './lib/app.mjs';
import { compared, enter, field, kept, keptWith, noticed, shareLink, showPanel, tabTo } from './lib/screen.mjs';

const WIDTH = 'base.width';
const NAME = 'about.name';

const fragment = (link) => link.slice(link.indexOf('#') + 1);

/** The rows of a table of the comparison, each as its texts. */
const rows = (page, table) =>
  page
    .locator(`table[data-table="${table}"] tbody tr`)
    .evaluateAll((all) =>
      all.map((row) => [row.querySelector('th'), ...row.querySelectorAll('.value, .less')].map(({ textContent }) => textContent.trim())),
    );

/** The questions of the comparison, each as title, verdict of the first and of the second, and how they stand. */
const questions = (page) =>
  page.locator('[data-table="Verdicts"] > li').evaluateAll((all) =>
    all.map((line) => [
      line.querySelector('.title').textContent,
      ...line.querySelector('.both').textContent.split(' → '),
      line.querySelector('.less').textContent,
    ]),
  );

/** Opens every fold of numbers and inputs. */
async function unfold(page) {
  const closed = page.locator('#panel-compare details.differing:not([open]) > summary');
  while ((await closed.count()) > 0) await closed.first().click();
}

const headline = (page) => page.locator('.comparison-bar [role="status"]').innerText();

/** A design of one's own, and a wider copy of it, which is then open. */
async function copiedAndWidened(page) {
  await enter(page, NAME, 'Set one');
  await enter(page, WIDTH, '900');
  await keptWith(page, 'Set one');
  await (await showPanel(page, 'designs')).getByRole('button', { name: 'Copy this design' }).click();
  await keptWith(page, 'Set one (copy)');
  await enter(page, WIDTH, '1234');
  await keptWith(page, '1.234');
}

/** An own design, pinned as it is and then made wider. */
async function pinnedAndChanged(site, size, options) {
  const visit = await site.open(size, options);
  const { page } = visit;
  await enter(page, NAME, 'Set one');
  await enter(page, WIDTH, '900');
  await keptWith(page, 'Set one');
  await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare what I change next with this: Set one' }).click();
  await compared(page, 'as it was: 0 changes');
  await enter(page, WIDTH, '1200');
  await compared(page, 'as it was: 1 change');
  await showPanel(page, 'compare');
  return visit;
}

describe('compare', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    for (const colorScheme of ['light', 'dark']) {
      it(`shows all that differs on a ${size.name}, ${colorScheme}`, async () => {
        const visit = await pinnedAndChanged(site, size, { context: { colorScheme } });
        const { page } = visit;
        const [[name, before, now, difference], ...others] = await rows(page, 'Changed inputs');
        assert.match(name, /width/i);
        assert.match(before, /900/);
        assert.match(now, /1200/);
        assert.match(difference, /\+300/);
        assert.deepEqual(others, []);
        assert.match(
          await page.locator('#panel-compare .totals').innerText(),
          /^Before → Now: Stops \d+ → \d+, Watch or Can't tell \d+ → \d+$/,
        );
        assert.ok((await questions(page)).every(([, one, other]) => one !== other), 'only verdicts that are another');
        assert.equal(await page.getByRole('button', { name: /Send mine there/ }).count(), 0, 'there is no other design');
        await unfold(page);
        const some = (await rows(page, 'Numbers')).length;
        await page.getByLabel(/^Show all/).check();
        await unfold(page);
        assert.ok((await rows(page, 'Numbers')).length > some);
        const asked = await questions(page);
        assert.ok(asked.some(([title]) => /push/i.test(title)));
        const told = asked.map((row) => row.at(-1));
        assert.ok(told.includes('same verdict'), 'what is alike says so');
        assert.ok(told.every((words) => /^(better|worse|same verdict|as good)$/.test(words)), `${[...new Set(told)]}`);
        for (const [name, one, other, difference] of await rows(page, 'Numbers')) {
          if (one === other) assert.equal(difference, 'same', name);
        }
        await page.getByLabel(/^Show all/).uncheck();

        assert.ok((await page.locator('.drawing path.ghost').count()) > 0, 'the other one over the drawing');
        const words = await page.locator('figure.drawing').evaluate((figure) => figure.innerHTML);
        assert.match(words, /Dashed over it, “Set one”/);
        assert.deepEqual(await visit.seriousProblems(), []);
        assert.equal(await sidewaysOverflow(page), 0);
        const heights = await page
          .locator('#panel-compare button:visible, .comparison-bar button:visible')
          .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
        assert.ok(heights.every((height) => height >= 44), `${heights}`);
        await visit.shot(`compare-${colorScheme}`);
        assert.deepEqual(visit.errors, []);
        await visit.close();
      });
    }
  }

  it('leaves the buttons above in sight while the designs are open on a desk', async () => {
    const visit = await pinnedAndChanged(site, DESKTOP);
    const { page } = visit;
    await showPanel(page, 'designs');
    const buttons = page.locator('.comparison-bar button:visible, .finding-head:visible, .apply:visible');
    assert.ok((await buttons.count()) > 5);
    const covered = await buttons.evaluateAll((all) => {
      const designs = document.querySelector('#panel-designs').getBoundingClientRect();
      return all.filter((one) => {
        const { left, right, top, bottom } = one.getBoundingClientRect();
        return right > designs.left && left < designs.right && bottom > designs.top && top < designs.bottom;
      }).length;
    });
    assert.equal(covered, 0);
    await visit.shot('compare-designs');
    await visit.close();
  });

  it('takes a value over and gives it back by undo, with the keyboard alone', async () => {
    const { page, errors, close } = await pinnedAndChanged(site, DESKTOP);
    await tabTo(page, 'button[aria-label^="Put back"]');
    assert.match(await page.evaluate(() => document.activeElement.textContent), /^Put back 900 mm$/);
    await page.keyboard.press('Enter');
    await compared(page, '0 changes');
    await page.waitForFunction(() => document.activeElement.matches('#panel-compare h2'));
    assert.equal(await (await field(page, WIDTH)).inputValue(), '900');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await compared(page, '1 change');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1200');
    assert.deepEqual(errors, []);
    await close();
  });

  it('calls what became worse worse, and puts all of it back', async () => {
    const { page, errors, close } = await pinnedAndChanged(site, DESKTOP);
    await enter(page, WIDTH, '410');
    const heads = await page.locator('[data-table="Changed inputs"] thead th').allTextContents();
    assert.deepEqual(heads, ['What', 'Before', 'Now', 'Difference']);
    await page.getByText('Better and worse are said of “Now”.').waitFor();
    await page.locator('[data-table="Changed inputs"] .less', { hasText: '−490 mm' }).waitFor();
    const push = (await questions(page)).find(([title]) => /push/i.test(title));
    assert.equal(push?.at(-1), 'worse');
    const [, before, now] = (await page.locator('#panel-compare .totals').innerText()).match(/Stops (\d+) → (\d+)/);
    assert.ok(Number(now) > Number(before), `${before} → ${now}`);
    await page.getByRole('button', { name: 'Put all back' }).click();
    await compared(page, '0 changes');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '900');
    assert.deepEqual(errors, []);
    await close();
  });

  it('gives the focus to what differs, and back to where comparing begins', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    const focused = (selector) => page.waitForFunction((wanted) => document.activeElement.matches(wanted), selector);
    await enter(page, NAME, 'Set one');
    await keptWith(page, 'Set one');
    await (await showPanel(page, 'designs')).getByRole('button', { name: /^Compare what I change next/ }).click();
    await focused('#panel-compare h2');
    await page.getByRole('button', { name: 'Hide comparison' }).click();
    await focused('.comparison-bar button');
    assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Show comparison');
    await page.keyboard.press('Enter');
    await focused('#panel-compare h2');
    await page.getByRole('button', { name: 'End comparison' }).click();
    await focused('.designs-button');
    const look = () => page.locator('.designs-button').evaluate((button) => getComputedStyle(button).backgroundColor);
    const closed = await look();
    await page.keyboard.press('Enter');
    await focused('#panel-designs');
    assert.equal(await page.locator('.designs-button').getAttribute('aria-expanded'), 'true');
    assert.notEqual(await look(), closed, 'it looks pressed while the designs are open');
    assert.deepEqual(errors, []);
    await close();
  });

  it('lands on the heading of what differs on a phone', async () => {
    const { page, close } = await site.open(PHONE);
    await enter(page, NAME, 'Set one');
    await keptWith(page, 'Set one');
    await (await showPanel(page, 'designs')).getByRole('button', { name: /^Compare what I change next/ }).click();
    await page.waitForFunction(() => {
      const { top, height } = document.querySelector('#panel-compare h2').getBoundingClientRect();
      const covered = document.querySelector('.stays').getBoundingClientRect().bottom;
      return top >= covered && top + height < innerHeight - 60;
    });
    await close();
  });

  it('says of the open design whether it is better, in columns that have the names of both', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await copiedAndWidened(page);
    await enter(page, WIDTH, '410');
    await keptWith(page, '0.41');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare with this: Set one', exact: true }).click();
    await compared(page, 'Compared with “Set one”: 1 difference');
    assert.match(await page.locator('#panel-compare .totals').innerText(), /^Set one → Set one \(copy\): Stops/);
    const push = (await questions(page)).find(([title]) => /push/i.test(title));
    assert.equal(push?.at(-1), 'worse', 'the open design is the narrower one');
    const heads = page.locator('[data-table="Changed inputs"]').first().locator('thead th');
    assert.deepEqual(await heads.allTextContents(), ['What', 'Set one', 'Set one (copy)', 'Difference']);
    const width = (await rows(page, 'Changed inputs')).find(([, one]) => one === '900 mm');
    assert.deepEqual(width?.slice(2, 4), ['410 mm', '−490 mm']);
    assert.deepEqual(errors, []);
    await close();
  });

  it('has the verdicts before the inputs, and folds many inputs by their group', async () => {
    const { page, errors, shot, close } = await site.open(PHONE);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
    await (await field(page, WIDTH)).waitFor();
    await enter(page, NAME, 'Improved');
    await keptWith(page, 'Improved');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As first drawn' }).click();
    await enter(page, NAME, 'First');
    await keptWith(page, 'First');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare with this: Improved', exact: true }).click();
    await compared(page, 'differences');
    const asked = await questions(page);
    assert.ok(asked.length > 10 && asked[0][3] === 'worse', `${asked[0]}`);
    const folds = page.locator('#panel-compare details.differing');
    assert.ok((await folds.count()) > 4);
    assert.equal(await page.locator('#panel-compare .side-by-side').count(), 0, 'nothing is unfolded');
    const tops = await page.evaluate(() =>
      ['[data-table="Verdicts"]', '#panel-compare details.differing'].map(
        (one) => document.querySelector(one).getBoundingClientRect().top,
      ),
    );
    assert.ok(tops[0] < tops[1]);
    await folds.last().locator('summary').click();
    await page.locator('#panel-compare .side-by-side').waitFor();
    assert.equal(await sidewaysOverflow(page), 0);
    await shot('compare-folded');
    assert.deepEqual(errors, []);
    await close();
  });

  it('puts a value over into another own design, which is kept, and takes that back', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await copiedAndWidened(page);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare with this: Set one', exact: true }).click();
    const put = page.locator('#panel-compare').getByRole('button', { name: /Send mine there.*width/i });
    await put.click();
    await page.waitForFunction(() => Object.values(localStorage).filter((text) => text.includes('1.234')).length >= 2);
    await noticed(page, 'Changed “Set one”');
    await page.locator('.notices').getByRole('button', { name: 'Undo' }).click();
    await put.waitFor();
    const texts = Object.values(await kept(page));
    assert.equal(texts.length, 2);
    assert.equal(texts.filter((text) => text.includes('1.234')).length, 1);
    assert.deepEqual(errors, []);
    await close();
  });

  it('is still on after the page was left, until it is ended', async () => {
    const { page, errors, close } = await pinnedAndChanged(site, PHONE);
    await keptWith(page, '1.2');
    const before = await headline(page);
    await page.reload();
    await appIsThere(page);
    assert.equal(await headline(page), before);
    await page.getByRole('button', { name: 'End comparison' }).click();
    await page.locator('.comparison-bar').waitFor({ state: 'detached' });
    assert.equal(await page.locator('.drawing path.ghost').count(), 0);
    await page.reload();
    await appIsThere(page);
    assert.equal(await page.locator('.comparison-bar').count(), 0);
    assert.deepEqual(errors, []);
    await close();
  });

  it('has what a design was wait while another one is open, and goes on once it is there again', async () => {
    const { page, errors, close } = await pinnedAndChanged(site, PHONE);
    await keptWith(page, '1.2');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
    await compared(page, '“Set one” as it was waits until that design is open again');
    assert.equal(await page.locator('.drawing path.ghost').count(), 0, 'it is no other machine');
    const panel = await showPanel(page, 'compare');
    assert.equal(await panel.getByRole('button').count(), 0, 'nothing to put back');
    assert.equal(await panel.locator('.totals').count(), 0);
    await page.reload();
    await appIsThere(page);
    await compared(page, 'as it was: 1 change');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Copy this design' }).click();
    await compared(page, 'as it was waits');
    await enter(page, WIDTH, '1300');
    await keptWith(page, '1.3');
    await page.reload();
    await appIsThere(page);
    await compared(page, 'as it was waits');
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Set one', exact: true }).click();
    await compared(page, 'as it was: 1 change');
    await showPanel(page, 'compare');
    const [[, before, now]] = await rows(page, 'Changed inputs');
    assert.deepEqual([before, now], ['900 mm', '1200 mm']);
    assert.deepEqual(errors, []);
    await close();
  });

  for (const size of SIZES) {
    it(`answers a link with a link on a ${size.name}`, async () => {
      const asking = await site.open(size);
      await enter(asking.page, NAME, 'Asked about');
      await keptWith(asking.page, 'Asked about');
      const link = fragment(await shareLink(asking.page));

      const helper = await site.open(size, { fragment: link });
      await enter(helper.page, WIDTH, '1111');
      const designs = await showPanel(helper.page, 'designs');
      await designs.locator('.answer', { hasText: '1 change.' }).waitFor();
      await enter(helper.page, 'about.note', 'Feet added.');
      await showPanel(helper.page, 'designs');
      await designs.locator('.answer', { hasText: '1 change, and another note.' }).waitFor();
      await designs.locator('#answer-note').fill('Make the feet wider.');
      assert.deepEqual(await helper.seriousProblems(), []);
      const answer = fragment(await designs.locator('#answer-link').inputValue());
      assert.deepEqual(helper.errors, []);
      await helper.close();

      const { page } = asking;
      await page.evaluate((text) => {
        location.hash = text;
      }, answer);
      await compared(page, 'Answer: 1 change, and another note');
      assert.equal(await page.locator('.answer-note').innerText(), 'Make the feet wider.');
      assert.match(await page.locator('header').innerText(), /Asked about/);
      assert.deepEqual(await asking.seriousProblems(), []);
      assert.equal(await sidewaysOverflow(page), 0);
      await asking.shot('answer');
      await page.getByRole('button', { name: 'Use everything in the answer' }).click();
      await compared(page, 'Answer: 0 changes');
      await keptWith(page, '1.111');
      assert.equal(Object.keys(await kept(page)).length, 1, 'it went into the own design');
      assert.deepEqual(asking.errors, []);
      await asking.close();
    });
  }

  it('puts nothing into a design that was deleted, so that it does not come back by itself', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await copiedAndWidened(page);
    const before = await kept(page);
    const designs = await showPanel(page, 'designs');
    await designs.getByRole('button', { name: 'Compare with this: Set one', exact: true }).click();
    const put = page.locator('#panel-compare').getByRole('button', { name: /Send mine there.*width/i });
    await put.waitFor();
    await showPanel(page, 'designs');
    await designs.getByRole('button', { name: 'Delete Set one', exact: true }).click();
    await compared(page, '“Set one”, deleted since: ');
    const panel = await showPanel(page, 'compare');
    assert.equal(await put.count(), 0, 'it would be kept again');
    await panel.getByText('It was deleted since').waitFor();
    assert.equal(await panel.getByRole('button', { name: /^Use this value.*width/i }).count(), 1);
    assert.equal(Object.keys(await kept(page)).length, 1);

    // After a reload it is still known to be deleted.
    await page.reload();
    await appIsThere(page);
    await compared(page, '“Set one”, deleted since: ');
    assert.equal(await put.count(), 0);

    // What is taken back is one's own again, and takes values.
    await page.evaluate((texts) => {
      for (const [key, text] of Object.entries(texts)) localStorage.setItem(key, text);
    }, before);
    await page.reload();
    await appIsThere(page);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Compare with this: Set one', exact: true }).click();
    await put.waitFor();
    await showPanel(page, 'designs');
    await designs.getByRole('button', { name: 'Delete Set one', exact: true }).click();
    await compared(page, 'deleted since');
    await page.locator('.notice', { hasText: 'Deleted “Set one”' }).getByRole('button', { name: 'Undo' }).click();
    await compared(page, '“Set one”: ');
    assert.deepEqual(await kept(page), before);
    assert.deepEqual(errors, []);
    await close();
  });

  it('offers the own design where it was changed since the link that is answered', async () => {
    const { page, close, errors } = await site.open(PHONE);
    await enter(page, NAME, 'Asked about');
    await keptWith(page, 'Asked about');
    const link = fragment(await shareLink(page));
    const helper = await site.open(PHONE, { fragment: link });
    await enter(helper.page, WIDTH, '1111');
    const designs = await showPanel(helper.page, 'designs');
    await designs.locator('#answer-note').fill('Wider feet.');
    const answer = fragment(await designs.locator('#answer-link').inputValue());
    await helper.close();

    await enter(page, WIDTH, '999');
    await keptWith(page, '0.999');
    await page.evaluate((text) => {
      location.hash = text;
    }, answer);
    await compared(page, 'Answer: 1 change');
    await page.getByText('as it was sent').waitFor();
    await page.getByRole('button', { name: 'Compare with mine' }).click();
    await page.locator('header', { hasText: 'Asked about' }).waitFor();
    assert.equal(await page.locator('.answer-note').innerText(), 'Wider feet.');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '999');
    assert.equal(Object.keys(await kept(page)).length, 1);
    assert.deepEqual(errors, []);
    await close();
  });

  it('keeps an answer that the page was opened with, taken over in part, when it is loaded again', async () => {
    const asking = await site.open(PHONE);
    await enter(asking.page, NAME, 'Asked about');
    await keptWith(asking.page, 'Asked about');
    const link = fragment(await shareLink(asking.page));
    await asking.close();
    const helper = await site.open(PHONE, { fragment: link });
    await enter(helper.page, WIDTH, '1111');
    await enter(helper.page, 'base.depth', '1222');
    const designs = await showPanel(helper.page, 'designs');
    await designs.locator('.answer', { hasText: '2 changes.' }).waitFor();
    await designs.locator('#answer-note').fill('Make the feet wider.');
    const answer = fragment(await designs.locator('#answer-link').inputValue());
    await helper.close();

    const { page, close, errors } = await site.open(PHONE, { fragment: answer });
    await compared(page, 'Answer: 2 changes');
    await unfold(page);
    const use = page.locator('#panel-compare').getByRole('button', { name: /^Use this value.*width/i });
    await use.click();
    await compared(page, 'Answer: 1 change');
    await keptWith(page, '1.111');
    await page.reload();
    await appIsThere(page);
    await compared(page, 'Answer: 1 change');
    await showPanel(page, 'compare');
    assert.equal(await page.locator('.answer-note').innerText(), 'Make the feet wider.');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1111');
    assert.deepEqual(errors, []);
    await close();
  });

  it('shows a design from a link beside the own one', async () => {
    const sender = await site.open(PHONE);
    await enter(sender.page, NAME, 'From afar');
    await enter(sender.page, WIDTH, '777');
    const link = fragment(await shareLink(sender.page));
    await sender.close();

    const { page, errors, close } = await site.open(PHONE);
    await enter(page, NAME, 'My own');
    await keptWith(page, 'My own');
    await page.evaluate((text) => {
      location.hash = text;
    }, link);
    await page.locator('.notices').getByRole('button', { name: 'Compare with mine' }).click();
    await compared(page, '“From afar” from a link: 1 difference');
    assert.match(await page.locator('header').innerText(), /My own/);
    const width = (await rows(page, 'Changed inputs')).find(([name]) => /width/i.test(name));
    assert.match(width?.join('|'), /\|410 mm\|777 mm\|\+367 mm$/, 'what theirs would change');

    // What is put into theirs is kept, so that ending the comparison loses nothing.
    const put = page.locator('#panel-compare').getByRole('button', { name: /Send mine there.*width/i });
    await put.click();
    await page.getByText('it is among your designs now').waitFor();
    await page.locator('.comparison-bar').getByRole('button', { name: 'End comparison' }).click();
    const texts = Object.values(await kept(page)).map((draft) => JSON.stringify(draft));
    assert.equal(texts.length, 2);
    assert.ok(texts.some((text) => text.includes('From afar') && !text.includes('0.777')), texts.join());
    assert.deepEqual(errors, []);
    await close();
  });
});
