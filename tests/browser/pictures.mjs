// Takes the pictures of the README from the built site: node tests/browser/pictures.mjs
import { fileURLToPath } from 'node:url';
import { DESKTOP, PHONE, start } from './lib/app.mjs';

const site = await start();
try {
  for (const [size, screen] of [
    [PHONE, { height: 800 }],
    [DESKTOP, { width: 1280, height: 800 }],
  ]) {
    const viewport = { ...size.viewport, ...screen };
    const { page, close } = await site.open(size, { context: { viewport, colorScheme: 'light', reducedMotion: 'reduce' } });
    await page.locator('button.apply').first().waitFor();
    await page.screenshot({ path: fileURLToPath(new URL(`../../docs/${size.name}.png`, import.meta.url)) });
    await close();
  }
} finally {
  await site.stop();
}
