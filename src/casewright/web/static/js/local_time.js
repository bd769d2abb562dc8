/** Times as the clock on the wall shows them; without this script they are given in UTC and say so. */

const SHOWN = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });

function showLocally() {
  for (const time of document.querySelectorAll("time[datetime]:not([title])")) {
    const when = new Date(time.dateTime);
    if (Number.isNaN(when.getTime())) continue;
    time.title = time.textContent;
    time.textContent = SHOWN.format(when);
  }
}

showLocally();
document.body.addEventListener("htmx:load", showLocally);
