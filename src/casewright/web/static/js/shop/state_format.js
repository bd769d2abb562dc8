/**
 * The whole state of the shop as the server sends it (`state_format.py`): in columns by the order of the work,
 * which this tablet keeps. What has changed since comes entry by entry.
 */

/** After a number, -n says that it comes n more times. */
function column(packed) {
  const values = [];
  for (const number of packed) {
    if (number >= 0) values.push(number);
    else values.push(...Array(-number).fill(values.at(-1)));
  }
  return values;
}

/** Each is told by how far it is from the one before; an odd number goes back. */
function placesOf(packed) {
  let place = 0;
  return column(packed).map((step) => (place += step % 2 ? -(step + 1) / 2 : step / 2));
}

function ticksOf(said, keys) {
  const places = placesOf(said.places);
  const ticks = {};
  let next = 0;
  column(said.steps).forEach((bench, number) => {
    if (bench) ticks[keys[number]] = { bench: said.benches[bench - 1], place: places[next++] };
  });
  return ticks;
}

function partsOf(said, marks) {
  const held = column(said.held);
  const parts = {};
  column(said.standing).forEach((standing, number) => {
    if (!standing && !held[number]) return; // to cut, and nobody's
    const [how, event] = said.events[marks[number]] ?? ["", ""];
    parts[marks[number]] = { status: said.statuses[standing], bench: held[number] ? said.benches[held[number] - 1] : "", how, event };
  });
  return parts;
}

function readingsOf(said) {
  const readings = {};
  for (const [name, numbers] of Object.entries(said.readings)) {
    readings[name] = [];
    for (let at = 0; at < numbers.length; at += 3) {
      const [text, tool, bench] = numbers.slice(at, at + 3);
      readings[name].push({ text: said.texts[text], tool: said.tools[tool], bench: said.benches[bench] });
    }
  }
  return readings;
}

/** The state entry by entry; `work` is the work that it is about. */
export function unpacked(said, work) {
  const keys = work.batches.flatMap((batch) => batch.steps.map((step) => step.key));
  const { place, seq, findings, more } = said;
  return {
    ...{ place, seq, findings, more, work: said.work },
    ticks: ticksOf(said, keys),
    parts: partsOf(said, work.marks),
    readings: readingsOf(said),
    settings: Object.fromEntries(said.set.map((number) => [work.batches[number].key, true])),
  };
}

/** The state with what changed in it; an entry that is null is gone. */
export function merged(state, { place, seq, more, changes }) {
  const next = { ...state, place, seq, more };
  for (const [section, entries] of Object.entries(changes)) {
    const isList = section === "findings";
    const all = isList ? Object.fromEntries(state.findings.map((finding) => [finding.key, finding])) : { ...state[section] };
    for (const [key, entry] of Object.entries(entries)) {
      if (entry === null) delete all[key];
      else all[key] = entry;
    }
    next[section] = isList ? Object.values(all) : all;
  }
  return next;
}
