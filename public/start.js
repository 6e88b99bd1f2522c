// Starts the app. The page shows its own first words until the program is here; the app takes them away.
const { glue, program } = document.querySelector('script[data-glue]').dataset;
const firstPaint = document.getElementById('first-paint');
const firstScreen = document.getElementById('first-screen');

/** When a worker begins to reckon the example, how often, and what it leaves to others in between, in ms. */
const START = 2000;
const ROUNDS = 12;
const PAUSE = 100;

// A program that broke cannot say so itself.
addEventListener('error', (event) => sayBroken(event.error));
addEventListener('unhandledrejection', (event) => sayBroken(event.reason));

try {
  const [{ default: start }, module] = await Promise.all([import(glue), compiled()]);
  await start({ module_or_path: module ?? program });
  if (module) setTimeout(() => quicken(module), START);
} catch (error) {
  firstScreen?.remove();
  firstPaint.querySelector('[role=status]').textContent =
    'The calculator could not start. Reload the page; if that does not help, try a newer browser.';
  throw error;
}

// Without a service worker (while developing, or in a private window) the app works all the same, online.
if ('serviceWorker' in navigator) {
  navigator.serviceWorker.register('service-worker.js').then(watch, () => {});
}

/** The program, compiled as it comes in; nothing where that does not go, and the glue finds another way. */
function compiled() {
  return WebAssembly.compileStreaming(fetch(program)).catch(() => undefined);
}

/**
 * Has a worker reckon the example some times. What is called often a browser compiles anew, to run faster, and page and
 * workers share what was compiled: so the first keystrokes find it ready.
 */
function quicken(module) {
  let helper;
  try {
    helper = new Worker('worker.js', { type: 'module' });
  } catch {
    // Without workers it comes with use.
    return;
  }
  helper.onmessage = ({ data }) => {
    const round = data === 'ready' ? 0 : data.piece + 1;
    if (round === ROUNDS) helper.terminate();
    else setTimeout(() => helper.postMessage(round), PAUSE);
  };
  helper.postMessage({ program: module, glue: new URL(glue, document.baseURI).href, job: '"WarmUp"' });
}

/** Tells the app when a newer version waits, and lets it take over when the app asks for it. */
function watch(registration) {
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) dispatchEvent(new Event('newer-version'));
  };
  offer();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', offer);
  });
  addEventListener('take-newer-version', () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
    registration.waiting?.postMessage('take over');
  });
}

function sayBroken(error) {
  if (!(error instanceof WebAssembly.RuntimeError) || document.getElementById('broken')) return;
  const notice = document.createElement('p');
  notice.id = 'broken';
  notice.className = 'notice';
  notice.setAttribute('role', 'alert');
  notice.textContent = 'The calculator broke. Please reload the page: your designs are kept up to the last pause in typing.';
  document.body.prepend(notice);
}
