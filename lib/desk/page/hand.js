// A scale at hand: edited in a table, put on the ruler and heard at once, kept by the browser.

import * as server from "./server.js";
import { button, checkbox, find, labelled, make, trying } from "./parts.js";
import { save } from "./answers.js";
import { print, read } from "./scalefile.js";
import { nameOf, selected, swap } from "./things.js";

const store = "sectio-scales";
let scale = null; // what scalefile.js reads, and {id, against}
let thing = 0; // the number of its file on the desk
let timer;
let last = Promise.resolve(); // one change is shown after the other

const kept = () => JSON.parse(localStorage.getItem(store) || "{}");

function keep() {
  localStorage.setItem(store, JSON.stringify({ ...kept(), [scale.id]: scale }));
  drawKept();
}

function throwAway(id) {
  const all = kept();
  delete all[id];
  localStorage.setItem(store, JSON.stringify(all));
  if (scale && scale.id === id) close();
  drawKept();
}

function drawKept() {
  const rows = Object.values(kept()).map(each => make("li", {}, make("span", { dir: "auto" }, each.head.name),
    button("Take in hand", () => hold(each), { "aria-label": `Take in hand: ${each.head.name}` }),
    button("Throw away", () => throwAway(each.id), { "aria-label": `Throw away: ${each.head.name}` })));
  find("kept").replaceChildren(...rows);
  find("kept-section").hidden = rows.length === 0;
}

function close() {
  scale = null;
  thing = 0;
  find("hand").hidden = true;
}

const line = text => find("hand-line").replaceChildren(...(text ? [make("span", { className: "trouble" }, text)] : []));

/// Puts the scale as it is now on the desk, in the place of what it was before, and on the ruler.
async function refresh() {
  if (!scale) return;
  const name = `${scale.head.name.replace(/[\/\\]/g, "-")}.toml`;
  thing = await swap(thing, new Blob([print(scale)]), name);
  const begun = await server.post("ask", [["question", "sheet"], ["thing", thing], ["pages", "ruler,table"],
    ["against", scale.against]]);
  const state = await server.finished(begun.job);
  line(state.ok ? "" : state.trouble);
  if (state.ok) find("hand-frame").src = server.page(begun.job);
  find("hand").dataset.shown = begun.job;
}

function changed() {
  keep();
  clearTimeout(timer);
  timer = setTimeout(() => { last = last.then(refresh).catch(error => line(error.message)); }, 300);
}

function input(object, key, label, hint = "") {
  const element = make("input", { value: object[key] || "", placeholder: hint, spellcheck: false, "aria-label": label });
  element.addEventListener("input", () => {
    object[key] = element.value.trim();
    changed();
  });
  return element;
}

function row(degree, index) {
  const used = checkbox("", { checked: degree.used, "aria-label": `Use degree ${index + 1}` });
  used.addEventListener("change", event => {
    degree.used = event.target.checked;
    changed();
  });
  const of = ` of degree ${index + 1}`;
  return make("tr", {}, make("td", {}, used), make("td", {}, input(degree, "name", "Name" + of)),
    make("td", {}, input(degree, "interval", "Pitch" + of, "9/8")),
    make("td", {}, input(degree, "uncertainty", "Half width" + of, "3c")));
}

function table() {
  const heads = ["Use", "Name", "Pitch above the tonic", "±"].map(head => make("th", { scope: "col" }, head));
  const body = make("tbody", {}, ...scale.rows.map(row));
  const wide = make("div", { className: "wide", tabIndex: 0, role: "group", "aria-label": "Degrees" },
    make("table", {}, make("thead", {}, make("tr", {}, ...heads)), body));
  const add = button("Add a degree", () => {
    scale.rows.push({ interval: "", used: true });
    body.append(row(scale.rows.at(-1), scale.rows.length - 1));
    body.lastChild.querySelectorAll("input")[1].focus();
  });
  return [wide, add];
}

async function take() {
  const begun = await server.post("ask", [["question", "sheet"], ["thing", thing], ["take", ".toml"]]);
  const state = await server.finished(begun.job);
  if (state.ok) save(begun.job, state.out);
  else line(state.trouble);
}

/// Shows a scale to be edited.
function hold(held) {
  scale = held;
  const of = (key, label, hint) => labelled(label, input(scale.head, key, label, hint));
  const against = labelled("Against", input(scale, "against", "Against", "12,53"));
  const actions = [button("Save the scale file", () => trying(take)), button("Put down", close),
    button("Throw away", () => throwAway(scale.id))];
  find("hand-body").replaceChildren(
    make("div", { className: "fields" }, of("name", "Name", ""), of("tonic", "Tonic", "D4"),
      of("reference", "Reference pitch", "A4 = 440 Hz"), of("period", "Period", "2/1, or none"), against),
    ...table(), make("p", { id: "hand-line", role: "status" }),
    make("p", { className: "row" }, ...actions),
    make("p", { className: "note" }, "Kept in this browser as it is now, also when the page is closed, until it is thrown away."),
    make("iframe", { id: "hand-frame", title: "The scale on the ruler", allow: "microphone; autoplay" }));
  find("hand").hidden = false;
  find("hand-heading").focus();
  changed();
}

/// Takes what is chosen in hand: its scale file is what the command writes.
async function takeInHand(chosen) {
  const begun = await server.post("ask", [["question", "sheet"], ["thing", chosen.number], ["take", ".toml"]]);
  const state = await server.finished(begun.job);
  if (!state.ok) throw new Error(state.trouble);
  const text = await (await fetch(server.file(begun.job))).text();
  thing = 0;
  hold({ ...read(text), id: String(Date.now()), against: "12,53" });
}

/// Buttons beside the questions.
export function offers() {
  const chosen = selected();
  const fits = chosen.length === 1 && ["scale", "pitches", "instrument"].includes(chosen[0].kind);
  return fits ? [button("Take it in hand", () => trying(() => takeInHand(chosen[0])),
    { "aria-label": `Take it in hand: ${nameOf(chosen[0])}` })] : [];
}

/// Another window of this browser has changed what is kept; the scale in hand is then that one.
function changedElsewhere(event) {
  if (event.key !== store) return;
  drawKept();
  const other = scale && kept()[scale.id];
  if (scale && !other) close();
  else if (other && JSON.stringify(other) !== JSON.stringify(scale)) hold(other);
}

export function begin() {
  drawKept();
  addEventListener("storage", changedElsewhere);
}
