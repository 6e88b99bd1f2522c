// To the bench: sheets on the screen, on paper and as files; templates whose printed lengths are measured.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, describe, it } from 'node:test';
import { DESKTOP, PHONE, SIZES, appIsThere, sidewaysOverflow, start } from './lib/app.mjs';
import { apart, readPdf } from './lib/pdf.mjs';
import { answered, enter, field, keptWith, showPanel, tabTo } from './lib/screen.mjs';

const SHEETS = ['summary', 'parts', 'marking', 'templates', 'gas-train', 'wiring', 'leak-tests', 'build-order', 'lighting', 'cost'];
const MM_PER_INCH = 25.4;
/** Of a length of 200 mm on paper. */
const TOLERANCE = 0.2;
/** How far the check line of a page is above its lower edge, mm. */
const CHECK_LINE_UP = 14;
/** Edge of a page, which holds its foot, mm. */
const MARGIN = 14;
/** Down to which share of its height a page is filled at least, its margin included. */
const LEAST_FILLED = 0.2;

describe('workshop', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  for (const size of SIZES) {
    for (const colorScheme of ['light', 'dark']) {
      it(`opens every sheet on a ${size.name}, ${colorScheme}`, async () => {
        const { page, errors, seriousProblems, close, shot } = await site.open(size, { context: { colorScheme } });
        await showPanel(page, 'workshop');
        assert.deepEqual(await names(page), SHEETS);
        for (const name of SHEETS) {
          const sheet = await unfold(page, name);
          assert.ok((await sheet.innerText()).length > 200, name);
          assert.ok(await allDrawn(sheet.locator('figure svg')), `drawings of ${name}`);
          await sheet.evaluate((element) => element.scrollIntoView());
          assert.equal(await sidewaysOverflow(page), 0, name);
          assert.equal(await sheet.evaluate((element) => element.scrollWidth - element.clientWidth), 0, name);
          await shot(`sheet-${name}-${colorScheme}`);
        }
        assert.deepEqual(await seriousProblems(), []);
        assert.deepEqual(errors, []);
        await close();
      });
    }
  }

  it('folds a sheet from its far end on a phone, and shows its heading then', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    const sheet = await unfold(page, 'summary');
    await sheet.locator('.sheet-body > :last-child').evaluate((element) => element.scrollIntoView());
    const heading = sheet.locator('> summary');
    const inView = () => heading.evaluate((element) => {
      const { top, bottom, left } = element.getBoundingClientRect();
      return top >= 0 && bottom <= innerHeight && document.elementFromPoint(left + 20, (top + bottom) / 2) === element;
    });
    assert.ok(await inView(), 'the heading stays');
    await heading.click();
    await page.waitForFunction(() => !document.querySelector('[data-sheet="summary"]').open);
    await page.waitForFunction(() => document.querySelector('[data-sheet="summary"] > summary').getBoundingClientRect().top >= 0);
    assert.ok(await inView(), 'folded');
    await close();
  });

  it('stands row by row on a phone and as a table on a desk', async () => {
    for (const size of SIZES) {
      const { page, close } = await site.open(size);
      await showPanel(page, 'workshop');
      const rows = (await unfold(page, 'wiring')).locator('[data-table] tbody tr');
      // In a block, cell stands below cell; in a table, beside it.
      const [first, second] = await rows
        .first()
        .locator('td[data-label]')
        .evaluateAll((cells) => cells.slice(0, 2).map((cell) => cell.getBoundingClientRect().top));
      assert.equal(second > first, size === PHONE);
      await close();
    }
  });

  it('follows the numbers while a sheet is open, and leads to them', async () => {
    const { page, close } = await site.open(DESKTOP);
    const sheet = await unfold(page, 'leak-tests');
    const before = await sheet.innerText();
    await enter(page, 'leak_test.budget', '2 %');
    await page.waitForFunction(
      (old) => document.querySelector('[data-sheet="leak-tests"]').innerText !== old,
      before,
    );
    await sheet.locator('[data-act="change"]').first().click();
    await page.locator('#group-tightness[open]').waitFor();
    await close();
  });

  it('is printed from a phone that never opened it', async () => {
    const { page, close } = await site.open(PHONE);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    assert.equal(await page.locator('#paper > section').count(), SHEETS.length);
    await close();
  });

  it('prints the QR code of the link on the summary, and only there', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await enter(page, 'base.width', '777');
    await showPanel(page, 'designs');
    await page.getByRole('button', { name: 'Show as QR code' }).click();
    const shown = await page.locator('.square-code path').getAttribute('d');
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    const code = page.locator('#paper .printed-code');
    assert.equal(await code.count(), 1);
    assert.equal(await page.locator('#paper [data-page="summary"] .printed-code').count(), 1);
    assert.equal(await code.locator('path').getAttribute('d'), shown, 'the same code as on the screen');
    await page.emulateMedia({ media: 'print' });
    const { width, height } = await code.locator('svg').boundingBox();
    const [, , modules] = (await code.locator('svg').getAttribute('viewBox')).split(' ').map(Number);
    const module = ((width / modules) * 25.4) / 96;
    assert.ok(Math.abs(width - height) < 0.5 && module > 0.4, `${module} mm a module`);
    assert.deepEqual(errors, []);
    await close();
  });

  it('prints the cost once there is a price, or where a person wants it', async () => {
    const { page, close } = await site.open(DESKTOP);
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
    await page.locator('.guide').getByRole('button', { name: 'Skip the rest' }).click();
    await page.locator('.guide').waitFor({ state: 'detached' });
    await showPanel(page, 'workshop');
    const tick = page.getByLabel('Print: Cost');
    assert.equal(await tick.isChecked(), false, 'nothing is priced');
    assert.ok(await page.getByLabel('Print: Parts list').isChecked());
    await enter(page, 'cost.mild_steel', '2');
    await page.waitForFunction(() => document.querySelector('[aria-label="Print: Cost"]').checked);
    await tick.uncheck();
    await enter(page, 'cost.mild_steel', '3');
    assert.equal(await tick.isChecked(), false, 'as the person chose');
    await tick.check();
    await enter(page, 'cost.mild_steel', '');
    assert.ok(await tick.isChecked(), 'as the person chose');
    await close();
  });

  it('is read and printed by the keyboard alone', async () => {
    const { page, close } = await site.open(DESKTOP);
    await tabTo(page, '[data-sheet="cost"] > summary');
    await page.keyboard.press('Enter');
    await page.locator('[data-sheet="cost"] table').first().waitFor();
    await page.evaluate(() => document.activeElement.blur());
    await tabTo(page, 'input[aria-label="Print: Cost"]');
    await page.keyboard.press('Space');
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    assert.equal(await page.locator('#paper > section').count(), SHEETS.length - 1);
    await close();
  });

  it('marks what was changed by hand on the screen, on paper and in the tables, through a reload and other edits', async () => {
    const { page, close } = await site.open(DESKTOP);
    await field(page, 'workshop.lifters');
    const changes = page.locator('#list-part_changes .item');
    const place = await changes.count();
    await page.getByRole('button', { name: 'Add change' }).click();
    await enter(page, `part_changes.${place}.mass`, '55.5');
    const marked = /changed; computed [\d.]+ kg/;
    const row = () => page.locator('[data-sheet="parts"] [data-table="parts-base"] tr', { hasText: 'Base frame' });
    const seen = async () => {
      await unfold(page, 'parts');
      await row().filter({ hasText: '55.5 kg' }).waitFor();
      return row().innerText();
    };
    assert.match(await seen(), marked);
    // Another base alone would give the frame another weight.
    const before = await row().innerText();
    await enter(page, 'base.width', '1000');
    await page.waitForFunction(
      (old) => [...document.querySelectorAll('[data-sheet="parts"] tr')].every((one) => one.innerText !== old),
      before,
    );
    assert.match(await seen(), marked);
    await keptWith(page, '55.5');
    await page.reload();
    await appIsThere(page);
    await showPanel(page, 'workshop');
    assert.match(await seen(), marked);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    assert.match(await page.locator('#paper [data-table="parts-base"] tr', { hasText: 'Base frame' }).textContent(), marked);
    const { bytes } = await download(page, () => page.getByRole('button', { name: 'Download everything' }).click());
    // The archive is stored without compression, so its tables can be read as they are.
    assert.match(bytes.toString('utf8'), /Base frame,.*55\.5.*changed; computed/);
    await close();
  });

  it('puts everything into one file', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    const { name, bytes } = await download(page, () => page.getByRole('button', { name: 'Download everything' }).click());
    assert.match(name, /\.zip$/);
    const files = zipNames(bytes);
    for (const wanted of ['design.json', 'sheets.html', 'drawings/machine.svg', 'drawings/machine-from-the-front.svg', 'drawings/machine-from-above.svg', 'drawings/hearth-section.svg', 'drawings/hearth-from-above.svg', 'drawings/gas-train.svg']) {
      assert.ok(files.includes(wanted), `${wanted} is in ${files}`);
    }
    for (const wanted of [/^pages\/.+-row-1-column-1\.svg$/, /^tables\/.+\.csv$/, /^templates\/.+\.svg$/, /^templates\/.+\.dxf$/]) {
      assert.ok(files.some((file) => wanted.test(file)), `${wanted} in ${files}`);
    }
    assert.equal(new Set(files).size, files.length);
    await close();
  });

  it('gives a template as SVG and DXF', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    const template = (await unfold(page, 'templates')).locator('.template').first();
    const svg = await download(page, () => template.locator('[data-act="svg"]').click());
    assert.match(svg.name, /\.svg$/);
    assert.match(svg.bytes.toString(), /^<svg [^>]*width="[\d.]+mm"/);
    const dxf = await download(page, () => template.locator('[data-act="dxf"]').click());
    assert.match(dxf.name, /\.dxf$/);
    assert.match(dxf.bytes.toString(), /ENTITIES/);
    await close();
  });

  for (const [paper, sides] of [
    ['A4', [210, 297]],
    ['Letter', [8.5 * MM_PER_INCH, 11 * MM_PER_INCH]],
  ]) {
    it(`prints a template at true size on ${paper}`, async () => {
      const { page, close } = await site.open(DESKTOP);
      await enter(page, 'hopper.height', '200');
      await showPanel(page, 'workshop');
      await page.getByRole('button', { name: paper, exact: true }).click();
      await withoutWindow(page);
      const wall = (await unfold(page, 'templates')).locator('.template', { hasText: 'Hopper wall' });
      await wall.locator('[data-act="print"]').click();
      const pages = await printed(page, `template-${paper.toLowerCase()}`);
      assert.equal(pages.length, await page.locator('#paper > .true-size').count(), 'nothing runs over onto another page');
      for (const { width, height, lines } of pages) {
        const [short, long] = [width, height].sort((a, b) => a - b);
        near(short, sides[0], 0.4);
        near(long, sides[1], 0.4);
        // The check line stands 14 mm above the lower edge, and nothing else beside it.
        const low = pieces(lines).filter((piece) => piece.every(([, y]) => Math.abs(y - CHECK_LINE_UP) < 0.5));
        near(longest(low), 100, TOLERANCE / 2);
      }
      // Upright lines that lie wholly on their page: the ends of the sheet, 200 mm high.
      const upright = pages.flatMap(({ height, lines }) =>
        pieces(lines).filter(([[x1, y1], [x2, y2]]) => Math.abs(x1 - x2) < 0.1 && Math.min(y1, y2) > 0 && Math.max(y1, y2) < height),
      );
      near(longest(upright), 200, TOLERANCE);
      await close();
    });
  }

  it('prints all templates in one go, but for what is drawn as well by hand', async () => {
    const { page, errors, close, shot } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    await withoutWindow(page);
    const sheet = await unfold(page, 'templates');
    const button = sheet.locator('[data-act="print-all"]');
    const count = Number(/(\d+) pages/.exec(await button.innerText())[1]);
    await shot('all-templates');
    await button.click();
    assert.equal(await page.locator('#paper > .true-size').count(), count);
    const pages = await printed(page, 'all-templates');
    assert.equal(pages.length, count, 'each on its own page, and nothing runs over');
    for (const { lines } of pages) {
      near(longest(pieces(lines).filter((piece) => piece.every(([, y]) => Math.abs(y - CHECK_LINE_UP) < 0.5))), 100, TOLERANCE / 2);
    }
    assert.ok(count < 60, `${count} pages: none without anything to do`);
    const told = await page.locator('#paper').textContent();
    assert.ok(told.includes('Shell, unrolled: overview') && told.includes('of the front line'), 'the shell tells where its pages lie');
    assert.ok(!told.includes('Hopper wall'), 'a plain rectangle is drawn with tape and square');
    assert.match(await sheet.innerText(), /Not among them, since tape, square or compass draw them as well: .*Hopper wall/);
    assert.deepEqual(errors, []);
    await close();
  });

  it('lets longer words in a table begin at the left on a phone, and all else end at one edge', async () => {
    const { page, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    const sheet = await unfold(page, 'templates');
    const use = sheet.locator('[data-table="templates"] td[data-label="Use"]').first();
    assert.equal(await use.evaluate((cell) => getComputedStyle(cell).textAlign), 'left');
    const ends = await sheet.locator('[data-table="templates"] tr').nth(1).locator('td.number').evaluateAll((cells) =>
      cells.map((cell) => {
        const range = document.createRange();
        range.selectNodeContents(cell);
        return Math.round(cell.closest('table').getBoundingClientRect().right - range.getBoundingClientRect().right);
      }),
    );
    assert.ok(ends.length > 2 && ends.every((gap) => gap === 0), `${ends}`);
    await close();
  });

  it('leaves no heading of a table alone at the foot of a page', async () => {
    const { page, close } = await site.open(DESKTOP);
    await page.goto('about:blank');
    const style = await readFile(new URL('../../style/print.css', import.meta.url), 'utf8');
    const table = `<table><caption>Stages</caption><thead><tr><th>Stage</th></tr></thead><tbody>${'<tr><td>Pipe</td></tr>'.repeat(9)}</tbody></table>`;
    // Heights of what stands above the table, mm, on a page that holds 269 mm.
    for (let above = 235; above < 269; above += 2) {
      await page.setContent(`<style>@page { size: 210mm 297mm; margin: ${MARGIN}mm } body { margin: 0 } ${style}</style><div id="paper"><section class="sheet"><div style="height: ${above}mm"></div>${table}<p>After.</p><p>After.</p></section></div>`);
      const [first] = readPdf(await page.pdf({ preferCSSPageSize: true }));
      const written = 297 - MARGIN - first.lowest - above;
      // Caption and headings end some 10 mm below what stands above; the first row another 5 mm lower.
      assert.ok(written < 0 || written > 13, `${written} mm of the table below ${above} mm`);
    }
    await close();
  });

  it('prints the ticked sheets, and nothing of the app around them', async () => {
    const { page, errors, close } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    await withoutWindow(page);
    await page.getByRole('button', { name: 'Print sheets' }).click();
    const pages = await printed(page, 'sheets');
    assert.ok(pages.length >= SHEETS.length && pages.length < 42, `${pages.length} pages`);
    const scarce = pages.findIndex(({ written, height }) => Math.min(...written.filter((up) => up > MARGIN)) > (1 - LEAST_FILLED) * height);
    assert.equal(scarce, -1, `page ${scarce + 1} of ${pages.length} holds next to nothing`);
    const bare = pages.findIndex(({ written }) => written.filter((up) => up < MARGIN).length < 3);
    assert.equal(bare, -1, `page ${bare + 1} tells at its foot the sheet, the design and its number`);
    await page.emulateMedia({ media: 'print' });
    const seen = await page.locator('body').innerText();
    for (const words of ['Blower', 'HOLD', 'Templates and their pages at true size', 'Steps', 'Readings, to be filled in']) {
      assert.ok(seen.includes(words), words);
    }
    for (const words of ['Print sheets', 'Undo', 'Your designs']) assert.ok(!seen.includes(words), words);
    const drawings = page.locator('#paper figure svg');
    assert.equal((await drawings.count()) >= 7, true, 'machine as reviewed and as built, hearth from two sides, gas train and shell are there');
    assert.ok(await allDrawn(drawings), 'and can be seen');
    assert.deepEqual(errors, []);
    await close();
  });

  it('takes the computed order over, lets it be put in another, and stops where that buries a joint', async () => {
    const { page, close, shot } = await site.open(DESKTOP);
    await field(page, 'workshop.lifters');
    const steps = page.locator('#list-build_steps .item');
    const titles = () => steps.locator('summary').allInnerTexts();
    const before = await titles();
    await page.locator('#take-order').click();
    await steps.locator('summary', { hasText: 'Close in' }).first().waitFor();
    assert.ok((await steps.count()) > 5);
    await answered(page, 'order.buries', 'Good');
    assert.equal(await page.locator('#list-build_steps .item-remark .stop').count(), 0);
    // The last step that closes something in goes to the top.
    const last = (await titles()).findLastIndex((text) => text.includes('Close in'));
    for (let at = last; at > 0; at -= 1) await page.locator(`#build_steps-up-${at}`).click();
    await answered(page, 'order.buries', 'Stop');
    assert.match(await steps.first().locator('.item-remark').innerText(), /Stop[\s\S]*closes in joint/);
    await shot('own-order');
    // One step back for each move, and one for taking the order over.
    for (let undo = 0; undo <= last; undo += 1) await page.getByRole('button', { name: 'Undo', exact: true }).click();
    assert.deepEqual(await titles(), before);
    await close();
  });

  it('ticks the steps that are done, keeps the ticks, and stops where an untested joint was hidden', async () => {
    const { page, close, shot, errors } = await site.open(PHONE);
    await showPanel(page, 'workshop');
    const sheet = await unfold(page, 'build-order');
    const box = (step) => sheet.locator(`[data-act="tick"][data-of="${step}"]`);
    const ticked = () => sheet.locator('[aria-pressed="true"]').count();
    assert.equal(await ticked(), 0);
    await box(0).click();
    await sheet.locator('[aria-pressed="true"]').waitFor();
    // By keyboard too: the box that was ticked keeps the focus.
    await page.waitForFunction(() => document.activeElement?.dataset.of === '0');
    const area = await box(0).boundingBox();
    assert.ok(area.width >= 44 && area.height >= 44, `${area.width} by ${area.height}`);
    await box(1).focus();
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelectorAll('[data-sheet] [aria-pressed="true"]').length === 2);
    assert.match(await sheet.innerText(), /2 of \d+ steps are done; next: /);
    await shot('ticked');
    await keptWith(page, 'made\\"');
    await page.reload();
    await appIsThere(page);
    await answered(page, 'order.so_far', 'Good');
    // What closes joints in, ticked before they are tested.
    await showPanel(page, 'workshop');
    const again = await unfold(page, 'build-order');
    const closing = again.locator('[data-table="build-order"] tbody tr', { hasText: 'Insulate or clad' }).first();
    await closing.locator('[data-act="tick"]').click();
    await answered(page, 'order.so_far', 'Stop');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await answered(page, 'order.so_far', 'Good');
    // What was ticked has its sizes, whatever is changed after that.
    await answered(page, 'workshop.as_made', 'Good');
    await enter(page, 'hearth.steel_thickness', '6');
    await answered(page, 'workshop.as_made', 'Watch');
    await showPanel(page, 'workshop');
    const changed = (await unfold(page, 'build-order')).locator('[data-table="made-otherwise"]');
    assert.match(await changed.innerText(), /Fire tube/);
    assert.equal(await sidewaysOverflow(page), 0);
    assert.deepEqual(errors, []);
    await close();
  });

  it('says at each leak test entered what it gave', async () => {
    const { page, close } = await site.open(PHONE);
    await field(page, 'leak_test.budget');
    await page.getByRole('button', { name: 'Add test' }).click();
    const remark = page.locator('#list-readings .item-remark').last();
    assert.match(await remark.innerText(), /Can't tell[\s\S]*nothing was read yet/);
    const place = (await page.locator('#list-readings .item').count()) - 1;
    // A date alone tells nothing of a gauge.
    await enter(page, `readings.${place}.date`, '2026-05-14');
    assert.match(await remark.innerText(), /Can't tell[\s\S]*nothing was read yet/);
    // Nearly all of it gone within ten seconds.
    await enter(page, `readings.${place}.second_pressure`, '100');
    await enter(page, `readings.${place}.time`, '10 s');
    await page.locator('#list-readings .item-remark .stop').last().waitFor();
    assert.match(await remark.innerText(), /Stop[\s\S]*leaks .+ ± .+/);
    assert.equal(await sidewaysOverflow(page), 0);
    await close();
  });
});

function names(page) {
  return page.locator('[data-sheet]').evaluateAll((all) => all.map(({ dataset }) => dataset.sheet));
}

/** Opens a sheet and gives it. */
async function unfold(page, name) {
  const sheet = page.locator(`[data-sheet="${name}"]`);
  if (!(await sheet.evaluate(({ open }) => open))) await sheet.locator('> summary').click();
  await sheet.locator('.sheet-body > *').first().waitFor();
  return sheet;
}

/** Whether there is something to see in each drawing. */
function allDrawn(drawings) {
  return drawings.evaluateAll((all) => all.every((svg) => svg.getBBox().width > 0));
}

/** The browser's own window for printing waits for a person, so it is left out. */
function withoutWindow(page) {
  return page.evaluate(() => {
    window.print = () => window.dispatchEvent(new Event('beforeprint'));
  });
}

async function printed(page, name) {
  const bytes = await page.pdf({ preferCSSPageSize: true, path: new URL(`../../test-output/screens/${name}.pdf`, import.meta.url).pathname });
  return readPdf(bytes);
}

/** All straight pieces, each as its two ends. */
function pieces(lines) {
  return lines.flatMap((points) => points.slice(1).map((point, place) => [points[place], point]));
}

/** The length of the longest, mm. */
function longest(some) {
  return Math.max(0, ...some.map(([from, to]) => apart(from, to)));
}

function near(given, wanted, within) {
  assert.ok(Math.abs(given - wanted) <= within, `${given} mm is ${wanted} mm within ${within} mm`);
}

async function download(page, press) {
  const [file] = await Promise.all([page.waitForEvent('download'), press()]);
  return { name: file.suggestedFilename(), bytes: await readFile(await file.path()) };
}

/** The names in the list at the end of an archive. */
function zipNames(bytes) {
  const names = [];
  for (let at = bytes.indexOf('PK\x01\x02', 0, 'latin1'); at >= 0; at = bytes.indexOf('PK\x01\x02', at + 46, 'latin1')) {
    names.push(bytes.toString('utf8', at + 46, at + 46 + bytes.readUInt16LE(at + 28)));
  }
  return names;
}
