/**
 * On a narrow screen the row of tabs is longer than the screen: the open one is brought into sight.
 */
const row = document.querySelector(".tabs");
const open = row?.querySelector("[aria-current]");

if (open) row.scrollLeft += open.getBoundingClientRect().right - row.getBoundingClientRect().right;
