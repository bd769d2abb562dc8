/** The fields of a form that keeps what is typed, and what each of them held when it was last agreed with the job. */

/** @typedef {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} Field */

/** @param {EventTarget} target @returns {HTMLFormElement | null} */
export const formOf = (target) =>
  target instanceof Element && target.name ? target.closest("form[data-keeps]") : null;

/** @param {HTMLFormElement} form @returns {Field[]} what a maker types or chooses */
export const fieldsOf = (form) =>
  [...form.elements].filter(
    (field) => field.matches("input, select, textarea") && field.name && !/^(hidden|file|checkbox|radio)$/.test(field.type),
  );

/** @param {Field} field @returns {string} what the page or the last answer says the job has */
export function agreed(field) {
  if (field instanceof HTMLSelectElement) {
    return [...field.options].find((option) => option.defaultSelected)?.value ?? field.options[0]?.value ?? "";
  }
  return field.defaultValue;
}

/** @param {Field} field @param {string} value */
export function agree(field, value) {
  if (field instanceof HTMLSelectElement) {
    for (const option of field.options) option.defaultSelected = option.value === value;
  } else {
    field.defaultValue = value;
  }
}

/** @param {HTMLFormElement} form @returns {Field[]} fields that hold what has not been saved */
export const unsaved = (form) => fieldsOf(form).filter((field) => field.value !== agreed(field));

/** @param {Field} field @returns {string} what the maker calls it */
export const labelOf = (field) => (field.labels?.[0]?.querySelector("span") ?? field.labels?.[0])?.textContent.trim() ?? field.name;

/** @param {Field} field @returns {string} what was typed, in a line; of a whole text only its name */
export function wordsOf(field) {
  const long = field.value.length > 60 || field.value.includes("\n");
  return long ? labelOf(field) : `${labelOf(field)} ${field.value || "empty"}`;
}
