// Takes the pictures of the README from the built site: node tests/browser/pictures.mjs
import { fileURLToPath } from 'node:url';
import { DESKTOP, PHONE, start } from './lib/app.mjs';

const site = await start();
try {
  for (const [size, screen] of [
    [PHONE, { height: 780 }],
    [DESKTOP, { width: 1240, height: 700 }],
  ]) {
    const viewport = { ...size.viewport, ...screen };
    const { page, close } = await site.open(size, { context: { viewport, deviceScaleFactor: size.deviceScaleFactor ? 1.5 : 1, colorScheme: 'light', reducedMotion: 'reduce' } });
    await page.locator('button.apply').first().waitFor();
    await page.screenshot({ path: fileURLToPath(new URL(`../../docs/${size.name}.png`, import.meta.url)) });
    await close();
  }
} finally {
  await site.stop();
}
