// Prints what each file of a built site weighs when served compressed: node site-size.mjs FOLDER
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pack } from './lib/server.mjs';

const LIMIT_KB = 300;
const folder = process.argv[2];
const line = (brotli, plain, name) =>
  console.log(`${(brotli / 1000).toFixed(1).padStart(8)} kB brotli ${(plain / 1000).toFixed(1).padStart(9)} kB plain  ${name}`);

let total = 0;
let totalPlain = 0;
const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
for (const entry of files) {
  const plain = readFileSync(join(entry.parentPath ?? entry.path, entry.name));
  const brotli = pack(plain);
  total += brotli.length;
  totalPlain += plain.length;
  line(brotli.length, plain.length, entry.name);
}
line(total, totalPlain, `in all (wanted: at most ${LIMIT_KB} kB brotli)`);
