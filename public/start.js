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
