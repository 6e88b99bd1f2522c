// In the yard: after one visit the whole app works on a phone with the network gone, asks nobody for anything, and keeps
// to its own policy. The walk is recorded, a numbered picture for each step, in test-output/walk.
import assert from 'node:assert/strict';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { PHONE, WALK, appIsThere, sidewaysOverflow, start } from './lib/app.mjs';
import { requested } from './lib/netlog.mjs';
import { answered, enter, field, keptWith, shareLink, showPanel, verdicts } from './lib/screen.mjs';

const WIDTH = 'base.width';
const TIMEOUT = { timeout: 60_000 };
/** A sheet of A4 in CSS pixels. */
const PAPER = { width: 794, height: 1123 };

const stops = async (page) => Object.values(await verdicts(page)).filter((word) => word === 'Stop').length;

/** What a person does in the yard; each step says what it saw by what it asserts. */
const STEPS = {
  async 'opened again'(page) {
    assert.match(await page.locator('header').innerText(), /example/i);
    assert.ok((await stops(page)) > 0);
    assert.ok(await page.locator('figure.drawing svg').isVisible());
  },
  async 'first question'(page) {
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).tap();
    await page.locator('.guide .count', { hasText: 'Question 1 of 5' }).waitFor();
    await enter(page, 'engine.wanted_power', '8 kW');
  },
  async 'last question'(page) {
    for (let number = 2; number <= 5; number += 1) {
      await page.locator('.guide .go-on').tap();
      await page.locator('.guide .count', { hasText: `Question ${number} of 5` }).waitFor();
    }
  },
  async 'complete design'(page) {
    await page.locator('.guide .go-on').tap();
    await page.locator('.guide').waitFor({ state: 'detached' });
    assert.equal(await stops(page), 0);
  },
  async 'numbers in the form'(page) {
    await enter(page, 'about.name', 'Yard set');
    await enter(page, WIDTH, '16 in');
    await keptWith(page, 'Yard set');
    assert.match(await page.locator('.field', { has: await field(page, WIDTH) }).innerText(), /= 406 mm/);
  },
  async 'a verdict that fails'(page) {
    await showPanel(page, 'verdicts');
    await answered(page, 'standing.push', 'Stop');
    const finding = page.locator('article[data-finding="standing.push"]');
    // What a best step mends as well is offered behind the heading.
    await finding.locator('.finding-head').tap();
    await finding.locator('button.apply').first().waitFor(TIMEOUT);
    await finding.scrollIntoViewIfNeeded();
  },
  async 'remedy applied'(page) {
    await page.locator('article[data-finding="standing.push"] button.apply').first().tap();
    await answered(page, 'standing.push', 'Good');
    await page.evaluate(() => scrollTo(0, 0));
  },
  async 'ground tilted'(page) {
    await page.locator('#tilt').fill('35');
    await page.locator('.fallen').waitFor({ state: 'attached' });
    assert.match(await page.locator('figure.drawing').textContent(), /goes over/);
  },
  async 'stage of the train moved'(page) {
    await page.locator('#tilt').fill('0');
    await showPanel(page, 'train');
    const second = page.locator('.train svg .row').nth(1).locator('text.name');
    const before = await second.allTextContents();
    await page.locator('#diagram-down-1').tap();
    await page.waitForFunction(() => /moved behind/.test(document.querySelector('#said').textContent));
    assert.notDeepEqual(await second.allTextContents(), before);
  },
  async 'chart read'(page) {
    await showPanel(page, 'charts');
    const chart = page.locator('figure.chart').first();
    await chart.locator('input[type="range"]').fill('3');
    assert.match(await chart.locator('.chart-says').innerText(), /\d/);
    // Drawn with the next frame, which a busy machine may take its time for.
    await page.waitForFunction(() => {
      const canvas = document.querySelector('figure.chart canvas');
      const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
      return new Set(new Uint32Array(data.buffer)).size > 4;
    });
    await chart.locator('.chart-table > summary').tap();
    await chart.locator('tbody tr').nth(4).waitFor();
    await chart.evaluate((element) => element.scrollIntoView());
  },
  async 'sheet unfolded'(page) {
    await showPanel(page, 'workshop');
    const sheet = page.locator('[data-sheet="parts"]');
    await sheet.locator('> summary').tap();
    await sheet.locator('table').first().waitFor();
    assert.match(await sheet.innerText(), /kg/);
    await sheet.evaluate((element) => element.scrollIntoView());
  },
  async 'how sure'(page) {
    await showPanel(page, 'verdicts');
    await page.evaluate(() => scrollTo(0, 0));
    await page.getByRole('button', { name: 'How sure is this?' }).tap();
    await page.locator('.how-sure[data-cases="2000"]').waitFor(TIMEOUT);
    await page.locator('.how-sure').scrollIntoViewIfNeeded();
    assert.match(await page.locator('.how-sure').innerText(), /2000 cases/);
  },
  async 'link and QR code'(page) {
    const link = await shareLink(page);
    assert.match(link, /#2\./);
    await page.getByRole('button', { name: 'Show as QR code' }).tap();
    await page.locator('.square-code').waitFor();
    await page.locator('.square-code').scrollIntoViewIfNeeded();
  },
  async 'compared with a link'(page, { theirs }) {
    await page.evaluate((text) => {
      location.hash = text;
    }, theirs);
    await page.locator('.notices').getByRole('button', { name: 'Compare with mine' }).tap();
    await page.locator('.comparison-bar', { hasText: /from a link: \d+ difference/ }).waitFor();
    assert.ok((await page.locator('#panel-compare details.differing').count()) > 1);
    assert.ok((await page.locator('.drawing path.ghost').count()) > 0);
  },
  async 'sheets for the printer'(page) {
    await showPanel(page, 'workshop');
    await page.evaluate(() => {
      window.print = () => window.dispatchEvent(new Event('beforeprint'));
    });
    await page.getByRole('button', { name: 'Print sheets' }).tap();
    assert.ok((await page.locator('#paper > section').count()) >= 8);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize(PAPER);
    assert.ok(await page.locator('#paper > section').first().isVisible());
  },
};

describe('in the yard', () => {
  let site;
  let folder;
  before(async () => {
    folder = await mkdtemp(join(tmpdir(), 'hearthplan-'));
    site = await start({ record: join(folder, 'requests.json') });
  });
  after(async () => {
    await site.stop();
    await rm(folder, { recursive: true });
  });

  it('works from end to end with the network gone, within its policy, and asks nobody else', async () => {
    const sender = await site.open(PHONE);
    await enter(sender.page, 'about.name', 'From afar');
    const link = await shareLink(sender.page);
    await sender.close();

    const { page, context, errors } = await site.open(PHONE, { before: (page) => page.addInitScript(noteViolations) });
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
    await page.evaluate(() => navigator.serviceWorker.ready);
    await site.cut();
    await context.setOffline(true);
    await assert.rejects(fetch(site.address), 'the server is gone');
    await page.reload();
    await appIsThere(page);

    await rm(WALK, { recursive: true, force: true });
    await mkdir(WALK, { recursive: true });
    const told = { theirs: link.slice(link.indexOf('#') + 1) };
    let number = 0;
    for (const [name, step] of Object.entries(STEPS)) {
      number += 1;
      const head = String(number).padStart(2, '0');
      try {
        await step(page, told);
        assert.equal(await sidewaysOverflow(page), 0, 'nothing to scroll sideways');
      } catch (error) {
        throw new Error(`Step ${number}, ${name}`, { cause: error });
      } finally {
        await page.screenshot({ path: join(WALK, `${head}-${name.replaceAll(' ', '-')}.png`) });
      }
    }
    assert.deepEqual(errors, []);
    assert.deepEqual(await page.evaluate(() => globalThis.violations), []);

    const scripts = directives(policy)['script-src'];
    assert.deepEqual(scripts, ["'self'", "'wasm-unsafe-eval'"]);
    assert.deepEqual(directives(policy)['default-src'], ["'self'"]);
    // What the policy forbids is refused and noted, so the empty list above means something.
    assert.deepEqual(await page.evaluate(trespass), ['connect-src', 'script-src', 'script-src-elem']);

    await site.browser.close();
    const own = new URL(site.address).origin;
    const requests = (await requested(join(folder, 'requests.json'))).filter(({ by }) => by);
    assert.deepEqual([...new Set(requests.map(({ by }) => by))], [own]);
    assert.deepEqual(requests.filter(({ url }) => !/^(data|blob):/.test(url) && new URL(url).origin !== own), []);
    for (const part of ['/worker.js', '/service-worker.js', '.wasm']) {
      assert.ok(requests.some(({ url }) => new URL(url).pathname.endsWith(part)), `${part} is among what was recorded`);
    }
  });
});

/** The directives of a policy by name. */
function directives(policy) {
  return Object.fromEntries(
    policy.split(';').map((directive) => {
      const [name, ...sources] = directive.trim().split(/\s+/);
      return [name, sources];
    }),
  );
}

/** In the page, before anything else runs: notes what the policy refuses. */
function noteViolations() {
  globalThis.violations = [];
  document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => globalThis.violations.push(effectiveDirective));
}

/** In the page: tries what the policy forbids; gives the directives that refused it. */
async function trespass() {
  await new Promise((resolve) => {
    setTimeout(async () => {
      try {
        new Function('return 1')();
      } catch {
        // Refused, as it should be.
      }
      const script = document.createElement('script');
      script.textContent = 'globalThis.trespassed = true';
      document.head.append(script);
      await fetch('http://elsewhere.invalid/').catch(() => {});
      setTimeout(resolve, 200);
    });
  });
  return globalThis.violations.sort();
}
