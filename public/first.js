// Before anything is painted: who has nothing kept and comes without a link is going to see the example, which
// the page can then show at once.
let kept = true;
try {
  kept = Object.keys(localStorage).some((key) => key.startsWith('hearthplan/'));
} catch {
  // Storage is blocked, so nothing is kept.
  kept = false;
}
if (!kept && !location.hash) document.documentElement.classList.add('first-visit');
