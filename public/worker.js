// Reckons cases for "How sure is this?" beside the page. The page sends its own program, the design and what
// to draw; then it asks for one run of cases after another.
let cases;

addEventListener('message', async ({ data }) => {
  if (data.program) {
    const glue = await import(data.glue);
    await glue.default({ module_or_path: data.program });
    cases = new glue.Cases(data.design, data.seed, data.wanted);
    postMessage('ready');
    return;
  }
  const outcomes = cases.outcomes(data.first, data.end);
  postMessage({ first: data.first, outcomes }, [outcomes.buffer]);
});

// What goes wrong while starting must reach the page, which then reckons by itself.
addEventListener('unhandledrejection', ({ reason }) => {
  setTimeout(() => {
    throw reason;
  });
});
