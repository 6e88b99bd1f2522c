// Passing a design on: by link and by file.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, appIsThere, start } from './lib/app.mjs';
import { answered, enter, field, kept, keptWith, noticed, notices, shareLink, showPanel, verdicts } from './lib/screen.mjs';

const WIDTH = 'base.width';
const NAME = 'about.name';
const LONGEST_LINK = 1_200;

const fragment = (link) => link.slice(link.indexOf('#') + 1);

describe('sharing', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    it(`opens a share link as the same design in a fresh profile on a ${size.name}`, async () => {
      const sender = await site.open(size);
      await enter(sender.page, NAME, 'Set for a friend, 26″ wide');
      await enter(sender.page, WIDTH, '26 in');
      const link = await shareLink(sender.page);
      const answers = await verdicts(sender.page);
      assert.ok(link.startsWith(site.address), 'the link leads to this very page');
      await sender.close();

      const friend = await site.open(size, { fragment: fragment(link) });
      assert.match(await friend.page.locator('header').innerText(), /Set for a friend, 26″ wide/);
      assert.deepEqual(await verdicts(friend.page), answers);
      assert.equal(fragment(await shareLink(friend.page)), fragment(link));
      assert.match(await notices(friend.page), /from a link/i);
      assert.deepEqual(friend.errors, []);
      assert.deepEqual(friend.strays, []);
      await friend.close();
    });
  }

  for (const size of SIZES) {
    it(`shows the question that came with a link at once on a ${size.name}`, async () => {
      const sender = await site.open(size);
      await enter(sender.page, NAME, 'From afar');
      await enter(sender.page, 'about.note', 'Will it tip on my slope?');
      const link = fragment(await shareLink(sender.page));
      await sender.close();
      const friend = await site.open(size, { fragment: link });
      const note = friend.page.locator('.notice .notice-note');
      assert.equal(await note.innerText(), 'Will it tip on my slope?');
      assert.ok(await note.isVisible());
      assert.deepEqual(await friend.seriousProblems(), []);
      await friend.shot('note-from-a-link');
      await friend.close();
    });
  }

  for (const size of SIZES) {
    it(`keeps a long note from a link folded at hand while one types on a ${size.name}`, async () => {
      const words = 'Will it tip on my slope? The yard falls towards the shed, and the wind comes from there. '.repeat(6).trim();
      const sender = await site.open(size);
      await enter(sender.page, NAME, 'From afar');
      await enter(sender.page, 'about.note', words);
      const link = fragment(await shareLink(sender.page));
      await sender.close();
      const friend = await site.open(size, { fragment: link });
      const { page } = friend;
      const note = page.locator('.notice-note');
      const height = () => note.evaluate((note) => note.getBoundingClientRect().height);
      const folded = await height();
      assert.ok(folded < 60, `${folded} px`);
      await friend.shot('long-note-from-a-link');
      await page.locator('.notice').getByRole('button', { name: 'More', exact: true }).click();
      assert.ok((await height()) > folded);
      await page.locator('.notice').getByRole('button', { name: 'Less', exact: true }).click();
      const entry = await field(page, WIDTH);
      const below = () => page.locator('.screen').evaluate((screen) => Math.round(screen.getBoundingClientRect().top + scrollY));
      const before = await below();
      await entry.fill('777');
      await keptWith(page, '0.777');
      await noticed(page, 'among your designs now');
      assert.ok((await note.textContent()).includes('Will it tip on my slope?'));
      if (size === DESKTOP) assert.equal(await below(), before, 'nothing jumps');
      assert.deepEqual(await friend.seriousProblems(), []);
      await friend.shot('long-note-kept');
      await page.locator('.notice').getByRole('button', { name: 'Dismiss' }).click();
      assert.equal(await note.count(), 0);
      assert.deepEqual(friend.errors, []);
      await friend.close();
    });
  }

  it('takes what came with a link away with its design', async () => {
    const sender = await site.open(DESKTOP);
    await enter(sender.page, NAME, 'From afar');
    await enter(sender.page, 'about.note', 'Will it tip on my slope?');
    const link = fragment(await shareLink(sender.page));
    await sender.close();
    const { page, close } = await site.open(DESKTOP);
    await enter(page, NAME, 'My own');
    await keptWith(page, 'My own');
    await page.evaluate((text) => {
      location.hash = text;
    }, link);
    await page.locator('.notice-note').waitFor();
    await (await showPanel(page, 'designs')).getByRole('button', { name: 'My own', exact: true }).click();
    await page.locator('header', { hasText: 'My own' }).waitFor();
    assert.equal(await page.locator('.notice').count(), 0);
    await close();
  });

  it('keeps the words of an answer with the link they were typed for', async () => {
    const sender = await site.open(PHONE);
    const links = [];
    for (const name of ['Of Anna', 'Of Boris']) {
      await enter(sender.page, NAME, name);
      links.push(fragment(await shareLink(sender.page)));
    }
    await sender.close();
    const { page, errors, close } = await site.open(PHONE, { fragment: links[0] });
    const words = page.locator('#answer-note');
    await showPanel(page, 'designs');
    await words.fill('Dear Anna');
    await keptWith(page, 'Dear Anna');
    await page.reload();
    await appIsThere(page);
    await showPanel(page, 'designs');
    assert.equal(await words.inputValue(), 'Dear Anna');
    await page.evaluate((text) => {
      location.hash = text;
    }, links[1]);
    await page.locator('header', { hasText: 'Of Boris' }).waitFor();
    const panel = await showPanel(page, 'designs');
    assert.equal(await words.inputValue(), '');
    await panel.getByRole('button', { name: 'Of Anna', exact: true }).click();
    await page.locator('header', { hasText: 'Of Anna' }).waitFor();
    assert.equal(await words.inputValue(), 'Dear Anna');
    assert.deepEqual(errors, []);
    await close();
  });

  it('gives the example a short link', async () => {
    const { page, close } = await site.open(PHONE);
    const link = fragment(await shareLink(page));
    assert.ok(link.length < LONGEST_LINK, `${link.length} characters`);
    await close();
  });

  it('keeps a design from a link only once it is changed, beside the own ones', async () => {
    const sender = await site.open(PHONE);
    await enter(sender.page, NAME, 'From afar');
    const link = fragment(await shareLink(sender.page));
    await sender.close();

    const { page, close } = await site.open(PHONE);
    await enter(page, NAME, 'My own');
    await keptWith(page, 'My own');
    const before = await kept(page);
    await page.evaluate((text) => {
      location.hash = text;
    }, link);
    await page.locator('header', { hasText: 'From afar' }).waitFor();
    assert.deepEqual(await kept(page), before, 'looking keeps nothing');
    await enter(page, WIDTH, '777');
    await keptWith(page, 'From afar');
    const texts = Object.values(await kept(page));
    assert.equal(texts.length, 2);
    assert.ok(texts.some((text) => text.includes('My own')));
    await close();
  });

  it('keeps what was typed the moment before a link is opened, and says where it is', async () => {
    const sender = await site.open(DESKTOP);
    await enter(sender.page, NAME, 'From afar');
    const link = fragment(await shareLink(sender.page));
    await sender.close();

    for (const open of [
      (page) =>
        page.evaluate((text) => {
          location.hash = text;
        }, link),
      (page) => page.goto(`${site.address}?again#${link}`),
    ]) {
      const { page, errors, close } = await site.open(DESKTOP);
      await enter(page, NAME, 'My own');
      await keptWith(page, 'My own');
      await enter(page, NAME, 'My own, typed just now');
      await open(page);
      await page.locator('header', { hasText: 'From afar' }).waitFor();
      await keptWith(page, 'My own, typed just now');
      assert.equal(Object.keys(await kept(page)).length, 1, 'what was typed belongs to the same design');
      assert.ok(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled());
      assert.match(await notices(page), /Your own are under Designs/);
      assert.equal(fragment(page.url()), link, 'the address stays that of the link');
      await page.reload();
      await appIsThere(page);
      assert.match(await page.locator('header').innerText(), /From afar/);
      await (await showPanel(page, 'designs')).getByRole('button', { name: 'My own, typed just now' }).first().click();
      await page.locator('header', { hasText: 'My own, typed just now' }).waitFor();
      assert.deepEqual(errors, []);
      await close();
    }
  });

  for (const [damage, spoil, reason] of [
    ['cut short', (link) => link.slice(0, -20), /damaged or cut short/],
    ['with a changed letter', (link) => link.slice(0, 40) + (link[40] === 'A' ? 'B' : 'A') + link.slice(41), /damaged/],
    ['from a newer version', (link) => `99.${link.split('.')[1]}`, /newer/],
    ['that is something else', () => 'section-2', /not a link/i],
  ]) {
    it(`explains a link ${damage} and leaves the own designs alone`, async () => {
      const { page, errors, close } = await site.open(DESKTOP);
      await enter(page, NAME, 'My own');
      await enter(page, WIDTH, '888');
      await keptWith(page, '0.888');
      const link = fragment(await shareLink(page));
      const before = await kept(page);
      await page.goto('about:blank');
      await page.goto(`${site.address}#${spoil(link)}`);
      await appIsThere(page);
      await noticed(page, reason);
      assert.match(await notices(page), /untouched/);
      assert.deepEqual(await kept(page), before);
      assert.match(await page.locator('header').innerText(), /My own/, 'the own design is on the bench');
      assert.deepEqual(errors, []);
      await close();
    });
  }

  it('exports a file and opens it again', async () => {
    const sender = await site.open(DESKTOP);
    await enter(sender.page, NAME, 'Set in a file');
    await enter(sender.page, WIDTH, '1212');
    const answers = await verdicts(sender.page);
    const panel = await showPanel(sender.page, 'designs');
    const [download] = await Promise.all([
      sender.page.waitForEvent('download'),
      panel.getByRole('button', { name: 'Export as a file' }).click(),
    ]);
    assert.equal(download.suggestedFilename(), 'Set-in-a-file.hearthplan.json');
    const path = await download.path();
    const text = await readFile(path, 'utf8');
    assert.equal(JSON.parse(text).base.width, 1.212, 'SI units in the file');

    const friend = await site.open(DESKTOP);
    await showPanel(friend.page, 'designs');
    await friend.page.locator('#import-file').setInputFiles({ name: 'set.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await friend.page.locator('header', { hasText: 'Set in a file' }).waitFor();
    assert.deepEqual(await verdicts(friend.page), answers);
    assert.equal(await (await field(friend.page, WIDTH)).inputValue(), '1212');
    assert.deepEqual(friend.errors, []);
    await sender.close();
    await friend.close();
  });

  it('explains a damaged file and leaves the design on the bench', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await enter(page, WIDTH, '1200');
    await answered(page, 'standing.push', 'Good');
    await showPanel(page, 'designs');
    await page.locator('#import-file').setInputFiles({ name: 'set.json', mimeType: 'application/json', buffer: Buffer.from('{\n"base": {"width": 0.9,,}\n}') });
    await noticed(page, /cannot be opened.*line 2/i);
    assert.equal(await (await field(page, WIDTH)).inputValue(), '1200');
    assert.deepEqual(errors, []);
    await close();
  });
});
