// Runs a test program that was compiled to WebAssembly: node --no-warnings run.mjs PROGRAM.wasm [ARGUMENTS]
import { readFile } from 'node:fs/promises';
import { WASI } from 'node:wasi';

const project = new URL('../..', import.meta.url).pathname;
const wasi = new WASI({
  version: 'preview1',
  args: process.argv.slice(2),
  env: process.env,
  // Tests read their fixtures by the project's own path.
  preopens: { [project]: project, '.': process.cwd() },
});
const program = await WebAssembly.compile(await readFile(process.argv[2]));
const instance = await WebAssembly.instantiate(program, wasi.getImportObject());
try {
  process.exitCode = wasi.start(instance);
} catch (error) {
  console.error(`The test above ended the program: ${error.message}`);
  process.exitCode = 1;
}
