// Run by Trunk after each build. An optimised build gets the first screen of a first visit into its page, one
// stylesheet instead of many, and the service worker with the list and the version of the files that were built.
// While developing there is none of this, so that nothing stale is served.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';

const folder = process.env.TRUNK_STAGING_DIR;
const worker = 'service-worker.js';

if (process.env.TRUNK_PROFILE === 'release') {
  joinStyles();
  paintBeforeFetching();
  await paintFirst();
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== worker)
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).replaceAll('\\', '/'))
    .sort();
  const hash = createHash('sha256');
  for (const file of files) hash.update(file).update(readFileSync(join(folder, file)));
  const version = hash.digest('hex').slice(0, 16);
  const listed = ['./', ...files.filter((file) => file !== 'index.html').map((file) => `./${file}`)];
  const body = readFileSync(new URL(worker, import.meta.url), 'utf8');
  const head = `const VERSION = ${JSON.stringify(version)};\nconst FILES = ${JSON.stringify(listed)};\n`;
  writeFileSync(join(folder, worker), head + body);
}

/** Puts all stylesheets into one, in their order: each request before the first paint takes its time on a slow line. */
function joinStyles() {
  const page = join(folder, 'index.html');
  const words = readFileSync(page, 'utf8');
  const links = [...words.matchAll(/<link\b[^>]*\bhref="?(?:\.\/)?([^">\s]+\.css)[^>]*>/g)];
  if (links.length === 0) throw new Error('The page has no stylesheets');
  const files = links.map(([, file]) => join(folder, file));
  const styles = files.map((file) => readFileSync(file, 'utf8')).join('\n');
  for (const file of files) rmSync(file);
  const digest = (way, form) => createHash(way).update(styles).digest(form);
  const name = `style-${digest('sha256', 'hex').slice(0, 16)}.css`;
  writeFileSync(join(folder, name), styles);
  const link = `<link rel="stylesheet" href="./${name}" integrity="sha384-${digest('sha384', 'base64')}">`;
  const [first, ...others] = links.map(([whole]) => whole);
  const joined = others.reduce((page, other) => page.replace(other, ''), words.replace(first, link));
  writeFileSync(page, joined);
}

/**
 * Trunk has the browser fetch the program at once, so that it shares a slow line with the page's first words. Here those
 * come first and in one piece; start.js fetches the program once they are painted.
 */
function paintBeforeFetching() {
  const page = join(folder, 'index.html');
  const words = readFileSync(page, 'utf8');
  const early = /<link\b[^>]*\brel="?(?:modulepreload|preload)\b[^>]*>/g;
  if (!early.test(words)) throw new Error('Nothing is fetched early any more');
  const whole = '<link rel="expect" href="#first-paint" blocking="render">';
  writeFileSync(page, words.replace(early, '').replace('</head>', `${whole}</head>`));
}

/** Asks the finished program for the first screen, and what mends the example, and puts both into the page. */
async function paintFirst() {
  const built = readdirSync(folder);
  const file = (ending) => built.find((name) => name.startsWith('hearthplan-app-') && name.endsWith(ending));
  // Read as text, since a file that ends in .js need not be a module to Node.
  const glue = readFileSync(join(folder, file('.js'))).toString('base64');
  const program = await import(`data:text/javascript;base64,${glue}`);
  program.initSync({ module: readFileSync(join(folder, file('.wasm'))) });
  const page = join(folder, 'index.html');
  const words = readFileSync(page, 'utf8');
  const place = words.search(/<main id="?first-paint/);
  if (place < 0) throw new Error('The page has no place for the first screen');
  writeFileSync(page, words.slice(0, place) + program.first_paint() + words.slice(place));
}
