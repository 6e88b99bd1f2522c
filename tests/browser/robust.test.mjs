// What may go wrong around the app: storage, other tabs, the clock, a tab that dies, the browser's own way back.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, appIsThere, start } from './lib/app.mjs';
import { answered, enter, field, kept, keptWith, make, noticed, notices, shareLink, showPanel, verdicts } from './lib/screen.mjs';

const WIDTH = 'base.width';
const NAME = 'about.name';
const DAY = 24 * 60 * 60 * 1000;

const header = (page) => page.locator('header').innerText();
const called = (page, name) => page.locator('header', { hasText: name }).waitFor();
const designs = async (page) => (await showPanel(page, 'designs')).locator('.draft-name').allTextContents();
const press = (page, name) => page.locator('.notices').getByRole('button', { name, exact: true }).click();
const fragment = (link) => link.slice(link.indexOf('#') + 1);

/** In the page: no more than a little fits from now on, as when the quota is used up. */
function fill() {
  const put = Storage.prototype.setItem;
  globalThis.makeRoom = () => {
    Storage.prototype.setItem = put;
  };
  Storage.prototype.setItem = () => {
    throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
  };
}

/** Before the page's own program: the storage throws whatever is asked of it, as in some private windows. */
function refuse() {
  for (const name of ['getItem', 'setItem', 'removeItem', 'key']) {
    Storage.prototype[name] = () => {
      throw new DOMException('The operation is insecure.', 'SecurityError');
    };
  }
  Object.defineProperty(Storage.prototype, 'length', {
    get() {
      throw new DOMException('The operation is insecure.', 'SecurityError');
    },
  });
}

describe('robust', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('loses nothing while the storage is full, and keeps it once there is room', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await make(page, 'First set');
    await make(page, 'Second set', '900');
    const before = await kept(page);
    await page.evaluate(fill);
    await enter(page, WIDTH, '1234');
    await noticed(page, /storage is full.*not kept/i);
    assert.deepEqual(await kept(page), before, 'what is kept is not touched');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1234');

    // Looking at another design does not lose this one.
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'First set', exact: true }).click();
    await called(page, 'First set');
    await noticed(page, '“Second set” could not be kept.');
    await press(page, 'Show it again');
    await called(page, 'Second set');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1234');

    await page.evaluate(() => globalThis.makeRoom());
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Delete First set' }).click();
    await keptWith(page, '1.234');
    assert.equal(Object.keys(await kept(page)).length, 1, 'in the place it had');
    assert.doesNotMatch(await notices(page), /storage is full/i);
    assert.deepEqual(errors, []);
    await close();
  });

  it('offers to take a deletion back for as long as there is no room for it', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await make(page, 'First set');
    await make(page, 'Second set');
    const before = await kept(page);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Delete First set' }).click();
    await noticed(page, 'Deleted “First set”');
    await page.evaluate(fill);
    await press(page, 'Undo');
    await noticed(page, /storage is full/i);
    assert.match(await notices(page), /Deleted “First set”/);
    assert.equal(Object.keys(await kept(page)).length, 1);
    await page.evaluate(() => globalThis.makeRoom());
    await press(page, 'Undo');
    await keptWith(page, 'First set');
    assert.deepEqual(await kept(page), before);
    assert.doesNotMatch(await notices(page), /Deleted|storage is full/i);
    assert.deepEqual(errors, []);
    await close();
  });

  it('brings back each of two deleted designs of one name', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await make(page, 'Same', '900');
    await make(page, 'Same', '910');
    await make(page, 'Stays', '920');
    await keptWith(page, '0.92');
    const before = await kept(page);
    const panel = await showPanel(page, 'designs');
    const told = page.locator('.notice', { hasText: 'Deleted “Same”.' });
    for (const left of [1, 0]) {
      await panel.getByRole('button', { name: 'Delete Same', exact: true }).first().click();
      await page.waitForFunction((left) => document.querySelectorAll('.drafts li').length === left + 1, left);
    }
    assert.equal(await told.count(), 2);
    for (const back of [2, 3]) {
      await told.first().getByRole('button', { name: 'Undo' }).click();
      await page.waitForFunction((back) => document.querySelectorAll('.drafts li').length === back, back);
    }
    assert.equal(await told.count(), 0);
    assert.deepEqual(await kept(page), before);
    assert.match(await header(page), /Stays/, 'the open design is the one it was');
    assert.deepEqual(errors, []);
    await close();
  });

  it('fills a real storage to the brim without losing what is in the page', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await make(page, 'Brim set');
    await page.evaluate(() => {
      let piece = 'x'.repeat(1_000_000);
      for (let place = 0; piece.length > 0; place += 1) {
        try {
          localStorage.setItem(`filler/${place}`, piece);
        } catch {
          piece = piece.slice(0, Math.floor(piece.length / 2));
        }
      }
    });
    await enter(page, 'about.note', 'A note that does not fit any more. '.repeat(20));
    await noticed(page, /storage is full.*not kept/i);
    assert.match(await (await field(page, 'about.note')).inputValue(), /does not fit/);
    await page.evaluate(() => localStorage.removeItem('filler/0'));
    await enter(page, WIDTH, '777');
    await keptWith(page, 'does not fit');
    assert.deepEqual(errors, []);
    await close();
  });

  it('works where the storage throws at every access', async () => {
    const { page, errors, close } = await site.open(PHONE, { before: (page) => page.addInitScript(refuse) });
    await enter(page, WIDTH, '1200');
    await answered(page, 'standing.push', 'Good');
    await noticed(page, /keeps nothing.*export/);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'As improved' }).click();
    await press(page, 'Show it again');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1200');
    await page.getByRole('button', { name: /inch units/i }).click();
    assert.ok(Object.keys(await verdicts(page)).length > 20);
    assert.deepEqual(errors, []);
    await close();
  });

  it('lets two tabs change different designs, and lists both in each', async () => {
    const { page: first, context, errors, close } = await site.open(DESKTOP);
    await make(first, 'Set of the first tab');
    const second = await context.newPage();
    await second.goto(site.address);
    await appIsThere(second);
    await make(second, 'Set of the second tab');
    for (const width of ['1001', '1003']) {
      await enter(first, WIDTH, width);
      await enter(second, WIDTH, `2${width.slice(1)}`);
    }
    await keptWith(first, '1.003');
    await keptWith(second, '2.003');
    const wanted = ['Set of the first tab', 'Set of the second tab'];
    for (const page of [first, second]) {
      assert.deepEqual((await designs(page)).sort(), wanted);
      assert.doesNotMatch(await notices(page), /another tab|copy/);
    }
    // Loaded again, each goes on with its own; a tab that is opened now, with the one opened last.
    for (const [place, page] of [first, second].entries()) {
      await page.reload();
      await appIsThere(page);
      assert.ok((await header(page)).includes(wanted[place]));
    }
    const third = await context.newPage();
    await third.goto(site.address);
    await appIsThere(third);
    assert.ok((await header(third)).includes(wanted[1]));
    assert.deepEqual(errors, []);
    await close();
  });

  it('keeps what was typed here when the newer one of another tab is shown, and tells of a deletion there', async () => {
    const { page: first, context, close } = await site.open(DESKTOP);
    await make(first, 'Shared set');
    const second = await context.newPage();
    await second.goto(site.address);
    await appIsThere(second);
    await enter(first, WIDTH, '1001');
    await keptWith(first, '1.001');
    await noticed(second, /another tab/);
    // Typed and asked for the other version at once, before the pause after which typing is kept.
    await enter(second, WIDTH, '1002');
    await press(second, 'Show the newer one');
    assert.equal(await (await field(second, WIDTH)).inputValue(), '1001');
    await keptWith(second, '1.002');
    assert.deepEqual((await designs(second)).sort(), ['Shared set', 'Shared set (copy)']);

    await (await showPanel(first, 'designs')).getByRole('button', { name: 'Delete Shared set', exact: true }).click();
    await noticed(second, /deleted in another tab/);
    await enter(second, WIDTH, '1005');
    await keptWith(second, '1.005');
    assert.deepEqual((await designs(first)).sort(), ['Shared set', 'Shared set (copy)'], 'it came back');
    await close();
  });

  it('keeps the order of the designs when the clock is set back or forward', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    const now = Date.now();
    const set = (time) =>
      page.evaluate((time) => {
        Date.now = () => time;
      }, time);
    await make(page, 'Today');
    await set(now - DAY);
    await make(page, 'Clock set back');
    await set(now + DAY);
    await make(page, 'Clock set forward');
    await set(now);
    await make(page, 'Today again');
    const wanted = ['Today again', 'Clock set forward', 'Clock set back', 'Today'];
    assert.deepEqual(await designs(page), wanted);
    await page.reload();
    await appIsThere(page);
    assert.deepEqual(await designs(page), wanted, 'also when they are read anew');
    assert.match(await header(page), /Today again/);
    // The day of a leak test is what the person wrote, whatever the clock says.
    await set(now - 400 * DAY);
    await field(page, 'leak_test.budget');
    await page.getByRole('button', { name: 'Add test' }).click();
    const place = (await page.locator('#list-readings .item').count()) - 1;
    await enter(page, `readings.${place}.date`, '2026-05-14');
    await keptWith(page, '2026-05-14');
    await set(now);
    await page.reload();
    await appIsThere(page);
    await showPanel(page, 'workshop');
    await page.locator('[data-sheet="leak-tests"] > summary').click();
    await page.locator('[data-sheet="leak-tests"]', { hasText: '2026-05-14' }).waitFor();
    assert.deepEqual(errors, []);
    await close();
  });

  for (const [damage, spoil] of [
    ['cut short', (text) => text.slice(0, Math.floor(text.length / 2))],
    ['emptied', () => ''],
    ['filled with noughts', (text) => '\0'.repeat(text.length)],
  ]) {
    it(`explains a design whose stored text was ${damage} while saving, and opens another`, async () => {
      // Without a service worker, so that another file of the site can be opened without the app.
      const { page, close } = await site.open(PHONE, { context: { serviceWorkers: 'block' } });
      await make(page, 'Whole set');
      await make(page, 'Broken set');
      const [id, text] = Object.entries(await kept(page)).find(([, text]) => text.includes('Broken set'));
      const spoiled = spoil(text);
      await page.goto(`${site.address}icon.svg`);
      await page.evaluate(([id, text]) => localStorage.setItem(id, text), [id, spoiled]);
      await page.goto(site.address);
      await appIsThere(page);
      await noticed(page, /cannot be opened.*damaged.*other designs are untouched/i);
      assert.match(await header(page), /Whole set/);
      await enter(page, WIDTH, '888');
      await keptWith(page, '0.888');
      assert.equal((await kept(page))[id], spoiled, 'its text is not touched');
      assert.deepEqual(await designs(page), ['Whole set', 'Damaged design']);
      await close();
    });
  }

  it('has everything up to the last pause after the tab was killed', async () => {
    const { page, context, close } = await site.open(DESKTOP);
    await make(page, 'Living set', '913');
    await keptWith(page, '0.913');
    await enter(page, WIDTH, '951');
    const crashed = page.waitForEvent('crash');
    await page.goto('chrome://crash').catch(() => {});
    await crashed;
    const again = await context.newPage();
    await again.goto(site.address);
    await appIsThere(again);
    assert.match(await header(again), /Living set/);
    assert.ok(['913', '951'].includes(await (await field(again, WIDTH)).inputValue()));
    await close();
  });

  it('goes back from a link to the own design, forward again, and loses nothing', async () => {
    const sender = await site.open(PHONE);
    await enter(sender.page, NAME, 'From afar');
    const link = fragment(await shareLink(sender.page));
    await sender.close();

    const { page, errors, close } = await site.open(DESKTOP);
    await make(page, 'My own', '951');
    await keptWith(page, '0.951');
    const open = (text) =>
      page.evaluate((text) => {
        location.hash = text;
      }, text);
    await open(link);
    await called(page, 'From afar');
    await page.goBack();
    await called(page, 'My own');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '951');
    await page.goForward();
    await called(page, 'From afar');
    await page.goBack();
    await called(page, 'My own');

    // A change of the linked design makes it an own one; the way back then leads past it, not over it.
    await open(link);
    await called(page, 'From afar');
    await enter(page, WIDTH, '1111');
    await keptWith(page, '1.111');
    await page.goBack();
    await page.goForward();
    assert.match(await header(page), /From afar/);
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1111');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    assert.notEqual(await (await field(page, WIDTH)).inputValue(), '1111', 'undo is the app’s own, not the browser’s');

    // Away to another page and back.
    await enter(page, WIDTH, '1222');
    await page.goto(`${site.address}icon.svg`);
    await page.goBack();
    await appIsThere(page);
    assert.match(await header(page), /From afar/);
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1222');
    assert.deepEqual((await designs(page)).sort(), ['From afar', 'My own']);
    assert.deepEqual(errors, []);
    await close();
  });

  it('leads from panel to panel on a phone, and never over what was changed', async () => {
    const sender = await site.open(DESKTOP);
    await make(sender.page, 'From afar', '777');
    const link = fragment(await shareLink(sender.page));
    await sender.close();

    const { page, errors, close } = await site.open(PHONE, { fragment: link });
    const shown = (name) => page.locator(`main[data-panel="${name}"]`).waitFor();
    const before = await page.evaluate(() => history.length);
    await showPanel(page, 'charts');
    await showPanel(page, 'workshop');
    await page.goBack();
    await shown('charts');
    await page.goBack();
    await shown('verdicts');
    await page.goForward();
    await shown('charts');
    assert.equal(await page.evaluate(() => history.length), before + 2, 'a step for each panel, and none for the way back');

    await enter(page, WIDTH, '1111');
    await keptWith(page, '1.111');
    await page.goBack();
    await shown('charts');
    await page.goBack();
    await shown('verdicts');
    assert.equal(new URL(page.url()).hash, '', 'the link is no longer that of the design');
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1111');
    assert.deepEqual(await designs(page), ['From afar']);
    assert.deepEqual(errors, []);
    await close();
  });
});
