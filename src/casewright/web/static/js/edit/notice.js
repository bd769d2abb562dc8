/** One line at the head of the page about a form that is no longer on it. */

/** @param {string} words @param {string} address of the form, empty where nothing is left to do */
export function notice(words, address) {
  const line = document.getElementById("left-behind");
  line.textContent = words;
  line.classList.toggle("refused", address !== "");
  if (address) {
    const back = document.createElement("a");
    back.href = address;
    back.textContent = "What you typed is still there: go back to it.";
    line.append(" ", back);
  }
  line.hidden = false;
}

/** Tell the page what an answer that htmx did not take says of the job. @param {string} told the HX-Trigger header */
export function announce(told) {
  for (const [name, detail] of Object.entries(JSON.parse(told))) window.htmx.trigger(document.body, name, detail);
}
