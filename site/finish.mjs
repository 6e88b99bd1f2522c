// Run by Trunk after each build: in an optimised build, writes the service worker with the list and the
// version of the files that were built. While developing there is none, so that nothing stale is served.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';

const folder = process.env.TRUNK_STAGING_DIR;
const worker = 'service-worker.js';

if (process.env.TRUNK_PROFILE === 'release') {
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
