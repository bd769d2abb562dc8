/** Small helpers to write elements without a template language. */

/** An element with its attributes (`on...` are listeners, false and null are left out) and children. */
export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value == null) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children.filter((child) => child != null && child !== false));
  return element;
}

export function button(words, press, attributes = {}) {
  return make("button", { type: "button", onclick: press, ...attributes }, words);
}
