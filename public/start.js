// Starts the app. The page shows its own first words until the program is here; the app takes them away.
const { glue, program } = document.querySelector('script[data-glue]').dataset;
/** How long the start waits at most for what only makes it smoother. */
const LONGEST_WAIT_MS = 3000;
const firstPaint = document.getElementById('first-paint');
const firstScreen = document.getElementById('first-screen');

// A program that broke cannot say so itself.
addEventListener('error', (event) => sayBroken(event.error));
addEventListener('unhandledrejection', (event) => sayBroken(event.reason));

try {
  await firstWords();
  const compiled = compile();
  const [{ default: start }] = await Promise.all([import(glue), goThrough(compiled)]);
  await start({ module_or_path: (await compiled) ?? program });
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

/**
 * Waits until the page's first words are painted, so that on a slow line they do not share it with the program. A page
 * that nobody sees is not painted, and an old browser may not tell.
 */
function firstWords() {
  return new Promise((resolve) => {
    new PerformanceObserver(resolve).observe({ type: 'paint', buffered: true });
    setTimeout(resolve, document.hidden ? 0 : LONGEST_WAIT_MS);
  });
}

/** Compiles the program while it comes in; nothing where the server does not say what it is. */
function compile() {
  return WebAssembly.compileStreaming(fetch(program)).catch(() => undefined);
}

/**
 * Has a worker go through the program once. A browser compiles each function when it is first called, and shares it
 * with the page, which then need not stop for it.
 */
async function goThrough(compiled) {
  let worker;
  try {
    worker = new Worker('worker.js', { type: 'module' });
    const message = { program: await compiled, glue: new URL(glue, document.baseURI).href };
    if (!message.program) return;
    await new Promise((resolve) => {
      worker.onmessage = worker.onerror = resolve;
      worker.postMessage(message);
      setTimeout(resolve, LONGEST_WAIT_MS);
    });
  } catch {
    // Where there are no workers the page does without.
  } finally {
    worker?.terminate();
  }
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
    // Another tab has let it take over already: this one need only be loaded again.
    if (!registration.waiting) return location.reload();
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
    registration.waiting.postMessage('take over');
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
  notice.scrollIntoView();
}
