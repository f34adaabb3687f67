// What lies on the desk: put there, recognised, chosen, taken off.

import * as server from "./server.js";
import { button, checkbox, find, make, say, trying } from "./parts.js";

const things = new Map(); // by number, in their order
const chosen = new Set();
let changed = () => {};

/// Calls `listener` whenever what is chosen, or known of it, has changed.
export const whenChanged = listener => { changed = listener; };
export const selected = () => [...things.values()].filter(thing => chosen.has(thing.number));
export const all = () => [...things.values()];
export const nameOf = thing => thing.file || thing.text;

export function show(list, choose = true) {
  for (const thing of list) {
    things.set(thing.number, thing);
    if (choose) chosen.add(thing.number);
  }
  draw();
}

/// What the desk says of a thing, without its name where the name stands before it.
function told(thing) {
  const words = thing.words || "…", name = `${nameOf(thing)}: `;
  return words.startsWith(name) ? words.slice(name.length) : words;
}

function row(thing) {
  const label = checkbox("", { checked: chosen.has(thing.number) });
  label.append(make("span", {}, make("strong", {}, nameOf(thing)), ` ${told(thing)}`));
  label.querySelector("input").addEventListener("change", event => {
    if (event.target.checked) chosen.add(thing.number);
    else chosen.delete(thing.number);
    changed();
  });
  const away = button("Take off", () => trying(() => drop(thing.number)),
    { "aria-label": `Take off: ${nameOf(thing)}` });
  const item = make("li", { dir: "auto" }, label, away);
  item.dataset.kind = thing.kind;
  return item;
}

function draw() {
  find("things").replaceChildren(...[...things.values()].map(row));
  find("things-section").hidden = things.size === 0;
  changed();
}

export async function drop(number) {
  await server.post("drop", [["thing", number]]);
  things.delete(number);
  chosen.delete(number);
  draw();
}

/// What the desk says of a thing that it has begun to look at.
async function recognised(begun) {
  const state = await server.finished(begun.job);
  if (state.ok) {
    show([state.thing]);
    say(`${nameOf(state.thing)}: ${told(state.thing)}`);
    return state.thing;
  }
  if (state.thing) await server.post("drop", [["thing", state.thing.number]]);
  throw new Error(state.trouble);
}

/// Chooses nothing, so that what comes next is what is asked about.
export function chooseNone() {
  chosen.clear();
}

export async function putFile(file, name = file.name) {
  say(`${name} is put on the desk …`);
  return recognised(await server.put("file", [["name", name]], file));
}

export async function putText(text) {
  return recognised(await server.post("text", [["text", text]]));
}

/// The file that an answer has made, as a thing.
export async function keep(job) {
  chooseNone();
  return recognised(await server.post("keep", [["job", job]]));
}

const unread = new Set(); // numbers whose place stands empty, since what came there could not be read

/// Puts a file in the place of the thing `old` (0 for none), which is chosen where that was.
/// @return its number
export async function swap(old, file, name) {
  const known = things.has(old) || unread.has(old);
  const choose = !known || chosen.has(old);
  if (things.has(old)) await server.post("drop", [["thing", old]]);
  things.delete(old);
  if (!known) chooseNone();
  const state = await server.finished((await server.put("file", [["name", name]], file)).job);
  if (!state.ok) {
    if (state.thing) await server.post("drop", [["thing", state.thing.number]]);
    if (old) unread.add(old);
    draw();
    throw new Error(state.trouble);
  }
  unread.delete(old);
  chosen.delete(old);
  show([state.thing], choose);
  return state.thing.number;
}

/// One after the other; one that is nothing keeps no other off.
export async function putFiles(files) {
  chooseNone();
  const troubles = [];
  for (const file of files)
    await putFile(file).catch(error => troubles.push(`${file.name}: ${error.message}`));
  draw();
  if (troubles.length) say(troubles.join("\n"), true);
}
