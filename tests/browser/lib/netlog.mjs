// Reads the log in which Chromium writes every request it makes, whoever asked for it: page, frame, worker, service
// worker or the browser itself. It is whole once the browser has been closed.
import { readFile } from 'node:fs/promises';

/** What the browser asks for on its own account, such as its own updates, has no origin. */
const BY_ITSELF = 'not an origin';

/** All requests over the net: `url`, and `by`, the origin that asked; none for the browser itself. */
export async function requested(path) {
  const { constants, events } = JSON.parse(await readFile(path, 'utf8'));
  const begun = constants.logEventTypes.URL_REQUEST_START_JOB;
  return events
    .filter(({ type, params }) => type === begun && params?.url)
    .map(({ params }) => ({ url: params.url, by: params.initiator === BY_ITSELF ? undefined : params.initiator }));
}
