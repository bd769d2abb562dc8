/**
 * Where to go once this device is paired: also to the part on a label, whose mark is behind the `#` and which
 * only the browser knows, and also when the code is then scanned, which opens this page anew.
 */

const KEPT = "casewright pairing leads to";
const MINUTES = 15; // whoever scans the code later than this has something else in mind

const to = document.querySelector('form[action="/pair"] [name="to"]');

function remembered() {
  const kept = JSON.parse(localStorage.getItem(KEPT) ?? "null");
  return kept && Date.now() - kept.at < MINUTES * 60_000 ? kept.to : "/";
}

if (location.hash && !to.value.includes("#")) to.value += location.hash;
if (to.value === "/") to.value = remembered();
else localStorage.setItem(KEPT, JSON.stringify({ to: to.value, at: Date.now() }));
