// Reckons beside the page. The page sends its own program and a job; then it asks for one piece after another. Without
// a job the program is only gone through once.
let desk;

addEventListener('message', async ({ data }) => {
  if (data.program) {
    const glue = await import(data.glue);
    await glue.default({ module_or_path: data.program });
    if (data.job) desk = new glue.Desk(data.job);
    else glue.warm_up();
    postMessage('ready');
    return;
  }
  postMessage({ piece: data, answer: desk.answer(data) });
});

// What goes wrong while starting must reach the page, which then reckons by itself.
addEventListener('unhandledrejection', ({ reason }) => {
  setTimeout(() => {
    throw reason;
  });
});
