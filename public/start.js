// Starts the app. The page shows its own first words until the program is here; the app takes them away.
const { glue, program } = document.querySelector('script[data-glue]').dataset;
const firstPaint = document.getElementById('first-paint');
const firstScreen = document.getElementById('first-screen');

// A program that broke cannot say so itself.
addEventListener('error', (event) => sayBroken(event.error));
addEventListener('unhandledrejection', (event) => sayBroken(event.reason));

try {
  const { default: start } = await import(glue);
  await start({ module_or_path: program });
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
