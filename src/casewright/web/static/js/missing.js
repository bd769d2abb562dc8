/**
 * Says in plain words when the page's libraries are not there. They are fetched at set-up;
 * without them the pages still read and the forms still work, a page at a time.
 */
const notice = document.getElementById("missing");

if (notice && !("htmx" in window)) {
  notice.textContent =
    "The page's script libraries are not installed, so drawings cannot be tapped and every change reloads the page. " +
    "Run “make setup” where casewright is installed, then reload this page.";
  notice.hidden = false;
}
