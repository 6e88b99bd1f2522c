import { PHONE, DESKTOP, start } from './lib/app.mjs';
import { field as fieldOf } from './lib/screen.mjs';
const run = await start();
for (const size of [PHONE, DESKTOP]) {
const app = await run.open(size); const { page } = app;
await fieldOf(page,'base.width'); await page.waitForTimeout(4000);
const r = await page.evaluate(async () => {
  const el = document.querySelector('[data-input="base.width"]');
  const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype,'value').set;
  const out=[];
  for (let i=0;i<20;i++){ 
    const t0=performance.now(); set.call(el, i%2?'660.1':'660.15'); el.dispatchEvent(new Event('input',{bubbles:true}));
    const t1=performance.now(); await new Promise(r=>setTimeout(r,0)); const t2=performance.now();
    document.body.offsetHeight; const t3=performance.now();
    out.push([t1-t0,t2-t1,t3-t2]); await new Promise(r=>setTimeout(r,30)); }
  const med=k=>out.map(o=>o[k]).sort((a,b)=>a-b)[10].toFixed(2);
  return {sync:med(0),micro:med(1),layout:med(2), nodes:document.querySelectorAll('*').length};
});
console.log(size.name, r);
await app.close();}
await run.stop();
