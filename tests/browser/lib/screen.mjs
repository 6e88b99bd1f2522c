// The screen as the tests use it: panels, fields, verdicts and designs, found by their stable names.

const PANEL_LABELS = {
  verdicts: 'Verdicts',
  numbers: 'Numbers',
  train: 'Train',
  charts: 'Charts',
  workshop: 'Workshop',
  designs: 'Designs',
  compare: /^(Compare|Show comparison)$/,
};

/** The buttons that open panels: in the bar, in the heading, and in the line above the panels. */
const PANEL_BUTTONS = ['.panel-bar', '.top', '.above'].map((place) => `${place} button:visible`).join(', ');

/** Brings a panel into view and gives it; on a phone by the bar, on a desk where it is not open anyway. */
export async function showPanel(page, name) {
  const panel = page.locator(`#panel-${name}`);
  const press = (label) => page.locator(PANEL_BUTTONS, { hasText: label }).first().click();
  // On a desk the designs stand in the place of the numbers until their button is pressed again.
  const designs = page.locator('#panel-designs');
  if (name !== 'designs' && (await designs.isVisible()) && !(await page.locator('.panel-bar').isVisible())) {
    await press(PANEL_LABELS.designs);
    await designs.waitFor({ state: 'hidden' });
  }
  if (!(await panel.isVisible())) {
    await press(PANEL_LABELS[name]);
    await panel.waitFor({ state: 'visible' });
  }
  return panel;
}

/** The names of the panels that this build has. */
export async function panels(page) {
  const ids = await page.locator('main [id^="panel-"]').evaluateAll((all) => all.map(({ id }) => id));
  return ids.map((id) => id.replace('panel-', ''));
}

/** The field of an input, with its group of the form unfolded. */
export async function field(page, path) {
  await showPanel(page, 'numbers');
  const wanted = page.locator(`[data-input="${path}"]`);
  const groups = page.locator('#panel-numbers details.group');
  for (let place = 0; (await wanted.count()) === 0 && place < (await groups.count()); place += 1) {
    const group = groups.nth(place);
    if (!(await group.evaluate(({ open }) => open))) await group.locator('> summary').click();
  }
  await wanted.first().waitFor({ state: 'visible' });
  return wanted.first();
}

/** Types a text into the field of an input. */
export async function enter(page, path, text) {
  await (await field(page, path)).fill(text);
}

/** A panel that is not on the screen does not follow the design, so it is shown before it is read. */
async function lookAtVerdicts(page) {
  if (!(await page.locator('#panel-verdicts').isVisible())) await showPanel(page, 'verdicts');
}

/** All verdicts by the name of their question. */
export async function verdicts(page) {
  await lookAtVerdicts(page);
  return page
    .locator('article[data-finding]')
    .evaluateAll((all) => Object.fromEntries(all.map(({ dataset }) => [dataset.finding, dataset.verdict])));
}

/** Waits until a question is answered with this word. */
export async function answered(page, question, word) {
  await lookAtVerdicts(page);
  await page.waitForSelector(`article[data-finding="${question}"][data-verdict="${word}"]`, { state: 'attached' });
}

/** The first failing question that can be mended by a button, with that button. */
export async function firstRemedy(page) {
  await showPanel(page, 'verdicts');
  const mendable = page.locator('[aria-busy="false"] article[data-verdict="Stop"]:has(button.apply)').first();
  await mendable.waitFor({ timeout: 20_000 });
  const question = await mendable.getAttribute('data-finding');
  return { question, button: page.locator(`article[data-finding="${question}"] button.apply`).first() };
}

/** The share link of the design on the bench. */
export async function shareLink(page) {
  await showPanel(page, 'designs');
  return page.locator('#share-link').inputValue();
}

/** What the notices above the screen say. */
export function notices(page) {
  return page.locator('.notices').innerText();
}

/** Waits until the comparison says this. */
export const compared = (page, words) => page.locator('.comparison-bar', { hasText: words }).waitFor();

/** Waits until a notice says this. */
export async function noticed(page, words) {
  await page.locator('.notices', { hasText: words }).waitFor();
}

/** What is kept in the browser: the text of each design by its key. */
export function kept(page) {
  return page.evaluate(() =>
    Object.fromEntries(Object.entries(localStorage).filter(([key]) => key.startsWith('hearthplan/draft/'))),
  );
}

/** Waits until the design on the bench is kept with this piece of text in it. */
export async function keptWith(page, text) {
  await page.waitForFunction(
    (wanted) => Object.entries(localStorage).some(([key, value]) => key.startsWith('hearthplan/draft/') && value.includes(wanted)),
    text,
  );
}

/** Starts a design of this name, kept and on the bench. */
export async function make(page, name, width) {
  await (await showPanel(page, 'designs')).getByRole('button', { name: 'Start my own' }).click();
  await page.locator('.guide').getByRole('button', { name: 'Straight to the numbers' }).click();
  await enter(page, 'about.name', name);
  if (width) await enter(page, 'base.width', width);
  await keptWith(page, name);
}

/** Presses Tab until an element that matches has the focus; fails when none gets it. */
export async function tabTo(page, selector, most = 600) {
  for (let presses = 0; presses < most; presses += 1) {
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The Tab key does not reach ${selector}`);
}
