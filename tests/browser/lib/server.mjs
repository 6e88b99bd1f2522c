// A small server for the built site, on a free port of this machine, as a real host would serve it.
import { createServer } from 'node:http';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';

const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
};

/** Names that the build makes from the content: what stands under them never changes. */
const NAMED_BY_CONTENT = /-[0-9a-f]{12,}[._]/;
const PACKED_ALREADY = ['.png'];

/**
 * Serves a folder; resolves to its address and a function that closes it. With `packed`, files go out
 * compressed, which takes a moment when one is first asked for.
 */
export async function serve(folder, { packed = false } = {}) {
  const ready = new Map();
  const server = createServer(async (request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://site').pathname));
    const file = join(folder, path.endsWith('/') ? `${path}index.html` : path);
    const headers = {
      'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      'cache-control': NAMED_BY_CONTENT.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache',
    };
    try {
      let body = await readFile(file);
      if (packed && !PACKED_ALREADY.includes(extname(file))) {
        if (!ready.has(file)) ready.set(file, pack(body));
        body = ready.get(file);
        headers['content-encoding'] = 'br';
      }
      response.writeHead(200, { ...headers, 'content-length': body.length });
      response.end(body);
    } catch {
      response.writeHead(404, { 'content-type': 'text/plain' });
      response.end('There is no such page.');
    }
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  let closed;
  return {
    address: `http://127.0.0.1:${server.address().port}/`,
    close() {
      closed ??= new Promise((resolve) => server.close(resolve));
      server.closeAllConnections();
      return closed;
    },
  };
}

/** Compressed as a host does that packs its files once. */
export function pack(plain) {
  return brotliCompressSync(plain, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: plain.length } });
}
