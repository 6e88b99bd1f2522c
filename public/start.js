// Starts the app. The page shows its own first words until the program is here; the app takes their place.
const { glue, program } = document.querySelector('script[data-glue]').dataset;
const firstPaint = document.getElementById('first-paint');

try {
  const { default: start } = await import(glue);
  await start({ module_or_path: program });
  firstPaint.remove();
} catch (error) {
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
