// Designs kept in the browser: over a reload, in two tabs, when storage is full, blocked or damaged.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, appIsThere, start } from './lib/app.mjs';
import { answered, enter, field, firstRemedy, kept, keptWith, noticed, notices, showPanel } from './lib/screen.mjs';

const WIDTH = 'base.width';
const NAME = 'about.name';

const blocked = (page) =>
  page.addInitScript(() => {
    Object.defineProperty(globalThis, 'localStorage', {
      get() {
        throw new DOMException('The operation is insecure.', 'SecurityError');
      },
    });
  });

const full = (page) =>
  page.addInitScript(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
    };
  });

describe('keeping designs', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`keeps what was typed over a reload on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      assert.deepEqual(await kept(page), {}, 'looking at the example keeps nothing');
      await enter(page, NAME, 'Set of the upper orchard');
      await enter(page, WIDTH, '1234 mm');
      await keptWith(page, '1.234');
      await page.reload();
      await appIsThere(page);
      assert.equal(await (await field(page, WIDTH)).inputValue(), '1234');
      assert.match(await page.locator('header').innerText(), /Set of the upper orchard/);
      assert.equal(Object.keys(await kept(page)).length, 1, 'one design, not one per keystroke');
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('keeps the last keystroke even when the page is left at once', async () => {
    const { page, close } = await site.open(PHONE);
    await enter(page, WIDTH, '1111');
    await page.reload();
    await appIsThere(page);
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1111');
    await close();
  });

  it('remembers the system of units', async () => {
    const { page, close } = await site.open(PHONE);
    await page.getByRole('button', { name: /inch units/i }).click();
    await page.reload();
    await appIsThere(page);
    assert.equal(await page.getByRole('button', { name: /inch units/i }).getAttribute('aria-pressed'), 'true');
    await close();
  });

  it('works and says so where storage is blocked', async () => {
    const { page, errors, close } = await site.open(PHONE, { before: blocked });
    assert.match(await notices(page), /keeps nothing.*export/i);
    await enter(page, WIDTH, '1200');
    await answered(page, 'standing.push', 'Good');
    assert.deepEqual(errors, []);
    await close();
  });

  it('works and says so where storage is full', async () => {
    const { page, errors, close } = await site.open(PHONE, { before: full });
    await enter(page, WIDTH, '1200');
    await answered(page, 'standing.push', 'Good');
    await noticed(page, /storage is full.*not kept/i);
    await showPanel(page, 'designs');
    await page.getByRole('button', { name: 'As improved' }).click();
    assert.match(await notices(page), /storage is full/i, 'said until it is dismissed');
    assert.deepEqual(errors, []);
    await close();
  });

  it('says in view, wherever a phone is scrolled to, that nothing is kept any more', async () => {
    const { page, errors, close } = await site.open(PHONE, { before: full });
    const width = await field(page, WIDTH);
    await width.scrollIntoViewIfNeeded();
    await width.fill('1200');
    await noticed(page, /storage is full.*not kept/i);
    assert.ok((await page.evaluate(() => scrollY)) > 200, 'the page is scrolled');
    const seen = await inView(page.locator('.notice', { hasText: 'storage is full' }));
    assert.ok(seen.top >= 0 && seen.isOnTop, JSON.stringify(seen));
    assert.ok((await width.boundingBox()).y > seen.bottom, 'the field stays clear of it');
    await page.locator('.notice', { hasText: 'storage is full' }).getByRole('button', { name: 'Dismiss' }).click();
    const welcome = await inView(page.locator('.notice', { hasText: 'An example with' }));
    assert.ok(welcome.bottom <= 0, 'what was told when the page came up scrolls away');
    assert.deepEqual(errors, []);
    await close();
  });

  it('tells designs of one name apart by their origin and their last change, and tabs by their design', async () => {
    const { page, context, errors, close } = await site.open(PHONE);
    await enter(page, NAME, 'Set one');
    await keptWith(page, 'Set one');
    await page.waitForFunction(() => document.title === 'Set one · Hearthplan');
    const design = await page.evaluate(() => {
      const text = Object.entries(localStorage).find(([key]) => key.startsWith('hearthplan/draft/'))[1];
      return JSON.parse(text).design;
    });
    const panel = await showPanel(page, 'designs');
    await page.setInputFiles('#import-file', { name: 'set.json', mimeType: 'application/json', buffer: Buffer.from(design) });
    await page.waitForFunction(() => document.querySelectorAll('.drafts li').length === 2);
    // One that was changed some days ago.
    await page.evaluate(() => {
      const [key, text] = Object.entries(localStorage).find(([, text]) => text.includes('"came":"Example"'));
      localStorage.setItem(key, JSON.stringify({ ...JSON.parse(text), changed: new Date(2024, 1, 3, 12).getTime() }));
    });
    await page.reload();
    await appIsThere(page);
    await showPanel(page, 'designs');
    const lines = panel.locator('.drafts li');
    const told = await lines.locator('p.meaning').allTextContents();
    assert.match(told[0], /; from a file; changed today \d\d:\d\d$/);
    assert.match(told[1], /; from an example; changed 3 Feb 2024$/);
    const described = await lines
      .locator('.draft-name, .danger')
      .evaluateAll((all) => all.map((one) => document.getElementById(one.getAttribute('aria-describedby')).textContent));
    assert.deepEqual(described, [told[0], told[0], told[1], told[1]]);
    await panel.getByRole('button', { name: 'Copy this design' }).click();
    await page.waitForFunction(() => document.title === 'Set one (copy) · Hearthplan');
    await lines.first().getByText('; a copy; changed today').waitFor();
    const other = await context.newPage();
    await other.goto(site.address);
    await appIsThere(other);
    await (await showPanel(other, 'designs')).getByRole('button', { name: 'Set one', exact: true }).first().click();
    await other.waitForFunction(() => document.title === 'Set one · Hearthplan');
    assert.equal(await page.title(), 'Set one (copy) · Hearthplan');
    assert.deepEqual(errors, []);
    await close();
  });

  it('offers in view to take a deletion back', async () => {
    const { page, close } = await site.open(PHONE);
    await enter(page, NAME, 'Set one');
    await keptWith(page, 'Set one');
    const panel = await showPanel(page, 'designs');
    await panel.getByRole('button', { name: 'Delete Set one' }).click();
    await noticed(page, 'Deleted');
    const seen = await inView(page.locator('.notice', { hasText: 'Deleted' }));
    assert.ok(seen.top >= 0 && seen.isOnTop, JSON.stringify(seen));
    await close();
  });

  for (const size of SIZES) {
    it(`keeps what was typed and cannot be used, with its message, on a ${size.name}`, async () => {
      const { page, errors, close } = await site.open(size);
      await enter(page, 'hopper.diameter', `1'-8"x`);
      await keptWith(page, 'x');
      await page.reload();
      await appIsThere(page);
      await page.locator('.summary .stale', { hasText: 'Hopper diameter needs correcting' }).waitFor();
      const entry = await field(page, 'hopper.diameter');
      assert.equal(await entry.inputValue(), `1'-8"x`);
      assert.equal(await entry.getAttribute('aria-invalid'), 'true');
      await page.locator('.field-wrong .wrong').waitFor();

      // With the design it belongs to, also when another was open meanwhile.
      const designs = await showPanel(page, 'designs');
      await designs.getByRole('button', { name: 'As improved' }).click();
      await page.locator('.summary .stale').waitFor({ state: 'hidden' });
      await designs.locator('.draft-name').last().click();
      await page.locator('.summary .stale', { hasText: 'Hopper diameter' }).waitFor();
      assert.equal(await (await field(page, 'hopper.diameter')).inputValue(), `1'-8"x`);

      await enter(page, 'hopper.diameter', '500');
      await keptWith(page, '0.5');
      await page.reload();
      await appIsThere(page);
      assert.equal(await (await field(page, 'hopper.diameter')).inputValue(), '500');
      assert.ok(await page.locator('.summary .stale').isHidden());
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('takes a deletion back beside what has come in its place', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await enter(page, NAME, 'Set one');
    await enter(page, WIDTH, '901');
    await keptWith(page, '0.901');
    const [[key, text]] = Object.entries(await kept(page));
    const panel = await showPanel(page, 'designs');
    await panel.getByRole('button', { name: 'Delete Set one' }).click();
    await noticed(page, 'Deleted');
    // Another tab that had it open went on with it.
    const newer = text.replace('0.901', '0.902');
    await page.evaluate(([key, newer]) => localStorage.setItem(key, newer), [key, newer]);
    await page.locator('.notices').getByRole('button', { name: 'Undo' }).click();
    await keptWith(page, 'Set one (copy)');
    await noticed(page, 'had come back meanwhile');
    const texts = await kept(page);
    assert.equal(texts[key], newer, 'the newer one stays');
    assert.ok(Object.values(texts).some((one) => one.includes('(copy)') && one.includes('0.901')));
    assert.deepEqual(errors, []);
    await close();
  });

  it('lists a damaged design with the reason and leaves the others alone', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await enter(page, NAME, 'The whole one');
    await keptWith(page, 'The whole one');
    await page.evaluate(() => localStorage.setItem('hearthplan/draft/aaaa', '{"revision": 1, "chan'));
    await page.reload();
    await appIsThere(page);
    const panel = await showPanel(page, 'designs');
    assert.match(await panel.innerText(), /damaged/i);
    assert.match(await panel.innerText(), /The whole one/);
    assert.match(await page.locator('header').innerText(), /The whole one/);
    assert.equal((await kept(page))['hearthplan/draft/aaaa'], '{"revision": 1, "chan', 'its text is not touched');
    assert.deepEqual(errors, []);
    await close();
  });

  it('keeps both versions when two tabs change the same design', async () => {
    const { page: first, context, close } = await site.open(DESKTOP);
    await enter(first, NAME, 'Shared set');
    await keptWith(first, 'Shared set');
    const second = await context.newPage();
    await second.goto(first.url());
    await appIsThere(second);

    await enter(first, WIDTH, '1001');
    await keptWith(first, '1.001');
    await noticed(second, /another tab/);
    await enter(second, WIDTH, '1002');
    await keptWith(second, '1.002');

    const texts = Object.values(await kept(second));
    assert.equal(texts.length, 2);
    assert.ok(texts.some((text) => text.includes('1.001')), 'what the first tab has');
    assert.ok(texts.some((text) => text.includes('1.002') && text.includes('(copy)')), 'what the second tab has');
    assert.match(await notices(second), /kept as a copy/);
    assert.doesNotMatch(await notices(second), /If you go on here/, 'what came to pass is told no longer as to come');
    assert.ok(await second.getByRole('button', { name: 'Undo', exact: true }).isEnabled(), 'what was typed can be taken back');
    await close();
  });

  it('shows the newer version of another tab when asked', async () => {
    const { page: first, context, close } = await site.open(DESKTOP);
    await enter(first, NAME, 'Shared set');
    await keptWith(first, 'Shared set');
    const second = await context.newPage();
    await second.goto(first.url());
    await appIsThere(second);
    await enter(first, WIDTH, '1001');
    await keptWith(first, '1.001');
    await second.getByRole('button', { name: 'Show the newer one' }).click();
    assert.equal(await (await field(second, WIDTH)).inputValue(), '1001');
    await close();
  });

  it('copies a design, deletes one, and takes the deletion back', async () => {
    const { page, errors, close } = await site.open(DESKTOP);
    await enter(page, NAME, 'Set one');
    await keptWith(page, 'Set one');
    let panel = await showPanel(page, 'designs');
    await panel.getByRole('button', { name: 'Copy this design' }).click();
    await keptWith(page, 'Set one (copy)');
    panel = await showPanel(page, 'designs');
    const before = await kept(page);
    assert.equal(Object.keys(before).length, 2);
    await panel.getByRole('button', { name: 'Delete Set one (copy)' }).click();
    await noticed(page, 'Deleted');
    assert.equal(Object.keys(await kept(page)).length, 1);
    await page.locator('.notices').getByRole('button', { name: 'Undo' }).click();
    await keptWith(page, 'Set one (copy)');
    assert.deepEqual(await kept(page), before);
    assert.match(await page.locator('header').innerText(), /Set one \(copy\)/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('starts a design of the person’s own, without the mark of the example', async () => {
    const { page, close } = await site.open(PHONE);
    assert.match(await page.locator('header').innerText(), /example/i);
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
    await page.locator('header', { hasText: 'example' }).waitFor({ state: 'detached' });
    assert.doesNotMatch(await page.locator('header').innerText(), /first drawn/);
    await close();
  });

  for (const size of SIZES) {
    it(`renames designs in the list, open or not, by keyboard and with a way back, on a ${size.name}`, async () => {
      const { page, errors, seriousProblems, close } = await site.open(size);
      await enter(page, NAME, 'Set one');
      await keptWith(page, 'Set one');
      let panel = await showPanel(page, 'designs');
      await panel.getByRole('button', { name: 'Copy this design' }).click();
      await keptWith(page, 'Set one (copy)');
      panel = await showPanel(page, 'designs');
      const opener = (name) => panel.getByRole('button', { name: `Rename ${name}`, exact: true });
      const entry = panel.locator('.draft-rename input');
      const has = (locator) => locator.evaluate((one) => one === document.activeElement);

      await opener('Set one').press('Enter');
      await entry.waitFor();
      await page.waitForFunction(() => document.activeElement.matches('.draft-rename input'));
      const heights = await panel.locator('.draft-rename input, .draft-rename button, .drafts button').evaluateAll((all) =>
        all.map((one) => one.getBoundingClientRect().height),
      );
      assert.ok(heights.every((height) => height >= 44), `${heights}`);
      assert.deepEqual(await seriousProblems(), []);
      await page.keyboard.press('Escape');
      await entry.waitFor({ state: 'detached' });
      await page.waitForFunction(() => document.activeElement.id.startsWith('rename-'));
      assert.ok(await has(opener('Set one')), 'the focus is back where it came from');

      await opener('Set one').press('Enter');
      await entry.fill('Set two');
      await entry.press('Enter');
      await keptWith(page, 'Set two');
      await opener('Set two').waitFor();
      await page.waitForFunction(() => document.activeElement.getAttribute('aria-label') === 'Rename Set two');
      assert.match(await page.locator('header').innerText(), /Set one \(copy\)/, 'the open design is another');
      await noticed(page, 'Renamed “Set one” to “Set two”');
      await page.locator('.notice', { hasText: 'Renamed' }).getByRole('button', { name: 'Undo' }).click();
      await opener('Set one').waitFor();

      await opener('Set one (copy)').click();
      await entry.fill('Open set');
      await panel.getByRole('button', { name: 'Keep the new name of Set one (copy)' }).click();
      await page.locator('header', { hasText: 'Open set' }).waitFor();
      await keptWith(page, 'Open set');
      const names = await panel.locator('.draft-name').allTextContents();
      assert.deepEqual(names.sort(), ['Open set', 'Set one']);
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('leaves the name that another tab gave', async () => {
    const { page: first, context, close } = await site.open(DESKTOP);
    await enter(first, NAME, 'Shared set');
    await keptWith(first, 'Shared set');
    const panel = await showPanel(first, 'designs');
    await panel.getByRole('button', { name: 'Copy this design' }).click();
    await keptWith(first, 'Shared set (copy)');
    await showPanel(first, 'designs');
    await panel.getByRole('button', { name: 'Rename Shared set', exact: true }).click();
    await panel.locator('.draft-rename input').fill('Of the first tab');
    // Written as another tab would, but without the event that tells of it.
    await first.evaluate(() => {
      const [key, text] = Object.entries(localStorage).find(
        ([key, text]) => key.startsWith('hearthplan/draft/') && text.includes('Shared set') && !text.includes('(copy)'),
      );
      localStorage.setItem(key, text.replace('Shared set', 'Of the second tab'));
    });
    await panel.locator('.draft-rename input').press('Enter');
    await noticed(first, '“Shared set” is not renamed');
    const texts = Object.values(await kept(first)).join();
    assert.ok(texts.includes('Of the second tab') && !texts.includes('Of the first tab'));
    await panel.getByRole('button', { name: 'Rename Of the second tab', exact: true }).waitFor();
    await close();
  });

  it('calls a design that has lost its name something', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await enter(page, NAME, 'Short-lived');
    await keptWith(page, 'Short-lived');
    await enter(page, NAME, '');
    await page.locator('header h1').getByText('Without a name').waitFor();
    const designs = await showPanel(page, 'designs');
    await designs.getByRole('button', { name: 'Without a name', exact: true }).waitFor();
    assert.deepEqual(errors, []);
    await close();
  });

  it('tells the designs of a person apart', async () => {
    const { page, errors, close } = await site.open(PHONE);
    for (const power of ['5 kW', '9 kW']) {
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
      await enter(page, 'engine.wanted_power', power);
      await page.locator('.guide').getByRole('button', { name: 'Skip the rest' }).click();
      await page.locator('.guide').waitFor({ state: 'detached' });
    }
    await keptWith(page, 'My machine 2');
    await showPanel(page, 'designs');
    const lines = await page.locator('.drafts li').allInnerTexts();
    assert.equal(lines.length, 2);
    assert.match(lines[0], /^My machine 2\n[^]*9 kW wanted, softwood/);
    assert.match(lines[1], /^My machine\n[^]*5 kW wanted, softwood/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('keeps a remedy that was applied', async () => {
    const { page, close } = await site.open(PHONE);
    const { question, button } = await firstRemedy(page);
    await button.click();
    await answered(page, question, 'Good');
    await page.reload();
    await appIsThere(page);
    await answered(page, question, 'Good');
    await close();
  });
});

/** Where a notice is on the screen, and whether nothing lies over it. */
function inView(notice) {
  return notice.evaluate((notice) => {
    const { top, bottom, left } = notice.getBoundingClientRect();
    const above = document.elementFromPoint(left + 20, (top + bottom) / 2);
    return { top, bottom, isOnTop: notice.contains(above) };
  });
}
