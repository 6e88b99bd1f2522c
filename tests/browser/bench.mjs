// Times from a keystroke, or from moving a stage of the gas train, to the frame that shows its result, with
// the processor slowed four times; how long the sampling takes; and what Lighthouse says.
import { DESKTOP, PHONE, start } from './lib/app.mjs';
import { review } from './lib/lighthouse.mjs';
import { field as fieldOf, showPanel } from './lib/screen.mjs';

const INPUT = 'base.width';
const SLOWED = 4;
const KEYSTROKES = 60;
const WANTED_MS = 50;
const MOVES = 40;
const WANTED_MOVE_MS = 100;
const WANTED_PERFORMANCE = 95;
const WANTED_TRANSFER_KB = 350;

const site = await start();
try {
  for (const size of [PHONE, DESKTOP]) await measure(size);
  await measureMoves(PHONE);
  for (const workers of [true, false]) for (const slowed of [SLOWED, 1]) await howSure(slowed, workers);
} finally {
  await site.stop();
}
await lighthouse();

async function measure(size) {
  const { page, close } = await site.open(size);
  const field = await fieldOf(page, INPUT);
  // A digit more or less behind the point is a valid width all the same.
  await field.fill('660.1');
  await field.focus();
  await page.evaluate(watch, 'keydown');

  await slowDown(page);
  // Types a digit at the end and takes it away again, so that every keystroke changes the design.
  await page.keyboard.press('End');
  for (let i = 0; i < KEYSTROKES; i += 1) {
    await page.keyboard.press(i % 2 ? 'Backspace' : '5');
    await page.waitForFunction((wanted) => globalThis.times.length >= wanted, i + 1);
  }
  await report(page, `${size.name}, keystrokes`, WANTED_MS);
  await close();
}

/** Moves the cyclone behind the cooler and back, by tapping the diagram. */
async function measureMoves(size) {
  const { page, close } = await site.open(size);
  await showPanel(page, 'train');
  await page.locator('#diagram-down-1').waitFor();
  await page.evaluate(watch, 'click');
  await slowDown(page);
  for (let i = 0; i < MOVES; i += 1) {
    await tap(page, page.locator(i % 2 ? '#diagram-up-2' : '#diagram-down-1'));
    await page.waitForFunction((wanted) => globalThis.times.length >= wanted, i + 1);
  }
  await report(page, `${size.name}, moving a stage`, WANTED_MOVE_MS);
  await close();
}

/** A finger alone: Playwright's own tap also has the page look whom it hits, which takes its time when slowed. */
async function tap(page, locator) {
  await locator.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  const { x, y, width, height } = await locator.boundingBox();
  await page.touchscreen.tap(x + width / 2, y + height / 2);
}

async function slowDown(page) {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
}

async function report(page, what, wanted) {
  const times = (await page.evaluate(() => globalThis.times)).sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
  console.log(`${what}: median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms of ${times.length} (wanted: at most ${wanted} ms)`);
}

/** In the page: notes for each event of a kind how long after it the next frame was painted. */
function watch(kind) {
  globalThis.times = [];
  document.addEventListener(
    kind,
    (event) => {
      const note = () => globalThis.times.push(performance.now() - event.timeStamp);
      // What blocks a person comes first: so this is the next task after that frame's style, layout and paint.
      requestAnimationFrame(() => scheduler.postTask(note, { priority: 'user-blocking' }));
    },
    { capture: true },
  );
}

/** Times "How sure is this?" from the tap to the answer. */
async function howSure(slowed, workers) {
  const before = workers ? undefined : (page) => page.addInitScript(() => delete globalThis.Worker);
  const { page, close } = await site.open(PHONE, { before });
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  const time = await page.evaluate(
    () =>
      new Promise((resolve) => {
        const box = document.querySelector('.how-sure');
        const start = performance.now();
        new MutationObserver(() => box.dataset.cases && resolve(performance.now() - start)).observe(box, { attributes: true });
        box.querySelector('button').click();
      }),
  );
  const beside = workers ? 'workers, which Chromium does not slow' : 'no workers';
  console.log(`how sure, 2000 cases, page slowed ${slowed} times, ${beside}: ${(time / 1000).toFixed(2)} s (wanted: at most 2 s)`);
  await close();
}

/** One visit of a phone, as Lighthouse sees it: scores, the parts of the performance, and what would lift it. */
async function lighthouse() {
  const { scores, parts, transfer, failing, slow } = await review();
  const { performance, ...others } = scores;
  console.log(`lighthouse, mobile: performance ${performance} (wanted: at least ${WANTED_PERFORMANCE})`);
  for (const [name, value] of Object.entries(parts)) console.log(`  ${name}: ${value}`);
  for (const [name, value] of Object.entries(others)) console.log(`lighthouse, mobile: ${name} ${value} (wanted: 100)`);
  console.log(`lighthouse, mobile: transfer ${(transfer / 1000).toFixed(1)} kB (wanted: at most ${WANTED_TRANSFER_KB} kB)`);
  for (const line of [...failing, ...slow]) console.log(`  ${line}`);
}
