// Times from a keystroke to the frame that shows its result, with the processor slowed four times.
import { DESKTOP, PHONE, start } from './lib/app.mjs';
import { field as fieldOf } from './lib/screen.mjs';

const INPUT = 'base.width';
const SLOWED = 4;
const KEYSTROKES = 60;
const WANTED_MS = 50;

const site = await start();
try {
  for (const size of [PHONE, DESKTOP]) await measure(size);
} finally {
  await site.stop();
}

async function measure(size) {
  const { page, close } = await site.open(size);
  const field = await fieldOf(page, INPUT);
  // A digit more or less behind the point is a valid width all the same.
  await field.fill('660.1');
  await field.focus();
  await page.evaluate(watchKeystrokes);

  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
  // Types a digit at the end and takes it away again, so that every keystroke changes the design.
  await page.keyboard.press('End');
  for (let i = 0; i < KEYSTROKES; i += 1) {
    await page.keyboard.press(i % 2 ? 'Backspace' : '5');
    await page.waitForFunction((wanted) => globalThis.keystrokeTimes.length >= wanted, i + 1);
  }
  const times = (await page.evaluate(() => globalThis.keystrokeTimes)).sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
  console.log(`${size.name}: median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms of ${times.length} keystrokes (wanted: at most ${WANTED_MS} ms)`);
  await close();
}

/** In the page: notes for each keystroke how long after it the next frame was painted. */
function watchKeystrokes() {
  globalThis.keystrokeTimes = [];
  document.addEventListener(
    'keydown',
    (event) => {
      // A message posted from the frame callback is handled right after that frame's style, layout and paint.
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => globalThis.keystrokeTimes.push(performance.now() - event.timeStamp);
      requestAnimationFrame(() => port2.postMessage(null));
    },
    { capture: true },
  );
}
