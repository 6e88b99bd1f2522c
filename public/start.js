// Starts the app. The page shows its own first words until the program is here; the app takes them away.
const script = document.querySelector('script[data-glue]');
const { glue, program } = script.dataset;
const firstPaint = document.getElementById('first-paint');
const firstScreen = document.getElementById('first-screen');

/** How long the start waits for the worker that goes before it, and what is left to it until it goes on, in ms. */
const PATIENCE = 3000;
const START = 2000;
/** How often that worker reckons the example, and what it leaves to others in between, in ms. */
const ROUNDS = 12;
const PAUSE = 100;

// A program that broke cannot say so itself.
addEventListener('error', (event) => sayBroken(event.error));
addEventListener('unhandledrejection', (event) => sayBroken(event.reason));

try {
  const helper = startHelper();
  const [{ default: start }, module] = await Promise.all([import(glue), compiled()]);
  if (module) await goneBefore(helper, module);
  else helper?.terminate();
  await start({ module_or_path: module ?? program });
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

function startHelper() {
  try {
    return new Worker('worker.js', { type: 'module' });
  } catch {
    // Without workers the page does everything itself.
    return undefined;
  }
}

/**
 * Has a worker reckon the example, and waits for its first result. A browser compiles a function when it is first
 * called, for page and workers alike; so the page then finds ready what would have held it up for a second. What is
 * called often the browser compiles anew to run faster: for that the worker goes on once the page is there.
 */
function goneBefore(helper, module) {
  return new Promise((done) => {
    if (!helper) {
      done();
      return;
    }
    setTimeout(done, PATIENCE);
    helper.onerror = done;
    helper.onmessage = ({ data }) => {
      const round = data === 'ready' ? 0 : data.piece + 1;
      if (round === 1) {
        script.dataset.goneBefore = '';
        done();
      }
      if (round === ROUNDS) helper.terminate();
      else setTimeout(() => helper.postMessage(round), round === 1 ? START : PAUSE);
    };
    helper.postMessage({ program: module, glue: new URL(glue, document.baseURI).href, job: '"WarmUp"' });
  });
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
