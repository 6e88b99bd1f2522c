// Where the machine will stand is asked, and nothing is taken for granted before it is told.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { PHONE, start } from './lib/app.mjs';
import { answered, field } from './lib/screen.mjs';

const ROOM = 'leaks.room';
const STANDS = 'shed.stands';

describe('where it will stand', () => {
  let site;
  before(async () => {
    site = await start();
  });
  after(() => site.stop());

  it('is asked in the first questions, and is not good by silence', async () => {
    const { page, errors, close } = await site.open(PHONE);
    const press = (name) => page.locator('.guide').getByRole('button', { name, exact: true }).click();
    await page.locator('.notices').getByRole('button', { name: 'Start my own' }).click();
    for (let number = 1; number < 4; number += 1) {
      await page.locator('.guide .count', { hasText: `Question ${number} of` }).waitFor();
      await press('Next');
    }
    const asked = (path) => page.locator(`.guide [data-input="${path}"]`);
    await asked('base.slope').waitFor();
    assert.equal(await asked(STANDS).inputValue(), 'not_told');
    await press('Skip the rest');
    await page.locator('.guide').waitFor({ state: 'detached' });
    await page.locator('#panel-verdicts').waitFor({ state: 'visible' });
    await answered(page, ROOM, "Can't tell");
    await (await field(page, STANDS)).selectOption('open_roof');
    await answered(page, ROOM, 'Good');
    await (await field(page, STANDS)).selectOption('closed_roof');
    await answered(page, ROOM, 'Stop');
    assert.deepEqual(errors, []);
    await close();
  });
});
