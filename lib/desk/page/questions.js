// The questions that fit what is chosen, as buttons, and the options of one as a form.

import { show } from "./answers.js";
import { button, checkbox, find, labelled, make, say } from "./parts.js";
import { all, nameOf, selected } from "./things.js";

const scaleKinds = ["scale", "pitches", "instrument"];
let questions = [];

const tunedBy = question => question.fields.find(field => field.option === "--scale");

/// The things that a question is asked of: those that are chosen, but for the scale that a question
/// about a score or samples takes in its form.
function subjects(question) {
  const things = selected();
  if (!tunedBy(question)) return things;
  return things.filter(thing => !scaleKinds.includes(thing.kind));
}

function fits(question) {
  const things = subjects(question);
  return things.length >= question.least && things.length <= question.most
    && things.every(thing => question.kinds.includes(thing.kind));
}

function scaleInput(field) {
  const input = make("input", { value: field.initial, placeholder: field.hint, spellcheck: false });
  const scales = all().filter(thing => scaleKinds.includes(thing.kind));
  const list = make("datalist", { id: `list-${field.option}` },
    ...scales.map(thing => make("option", { value: nameOf(thing) })));
  input.setAttribute("list", list.id);
  const first = selected().find(thing => scaleKinds.includes(thing.kind));
  if (field.option === "--scale" && first) input.value = nameOf(first);
  const block = labelled(field.label, input);
  block.append(list);
  return block;
}

function parts(field) {
  const boxes = field.choices.map(choice =>
    checkbox(choice, { value: choice, checked: field.initial.split(",").includes(choice) }));
  return make("fieldset", {}, make("legend", {}, field.label), ...boxes);
}

function control(field) {
  if (field.kind === "flag") return checkbox(field.label, { value: "yes" });
  if (field.kind === "parts") return parts(field);
  if (field.kind === "scale") return scaleInput(field);
  if (field.kind === "choice")
    return labelled(field.label, make("select", { value: field.initial },
      ...field.choices.map(choice => make("option", { selected: choice === field.initial }, choice))));
  return labelled(field.label, make("input", { value: field.initial, placeholder: field.hint, spellcheck: false }));
}

/// The value of one field of the form: what is ticked, or what is written.
function value(block) {
  const inputs = [...block.querySelectorAll("input, select")];
  return inputs.filter(input => input.type !== "checkbox" || input.checked)
    .map(input => input.value.trim()).filter(text => text).join(",");
}

/// What is asked, as the desk wants it.
function asked(question) {
  const form = question.fields.map((field, index) =>
    [field.option.slice(2) || "with", value(find("form").children[index])]);
  return [["question", question.id], ...subjects(question).map(thing => ["thing", thing.number]),
    ...form.filter(([, text]) => text)];
}

function ask(question) {
  say("");
  show(question, asked(question), subjects(question));
}

/// What is still to be said before there is an answer; empty where nothing is.
function missing(question) {
  const says = (...names) => asked(question).some(([name]) => names.includes(name));
  if (question.id === "frets")
    return says("length") || selected()[0].kind === "instrument" ? "" : "Say how long the strings are";
  if (question.id === "compare")
    return says("with") || selected().length > 1 ? "" : "Say with which scale";
  return !tunedBy(question) || question.id === "samples" || says("scale", "system") ? "" : "Say in which scale";
}

function choose(question) {
  for (const each of find("questions").children) each.setAttribute("aria-pressed", each.dataset.id === question.id);
  const form = find("form");
  const go = make("button", { type: "submit" }, "Answer");
  form.replaceChildren(...question.fields.map(control), go);
  form.hidden = false;
  form.onsubmit = event => {
    event.preventDefault();
    ask(question);
  };
  if (missing(question)) {
    form.querySelector("input").focus();
    say(`${missing(question)}, then press Answer.`);
  } else ask(question);
}

/// Buttons for what is chosen now.
export function offer(extra = []) {
  const buttons = questions.filter(fits).map(question => {
    const each = button(question.label, () => choose(question), { "aria-pressed": "false" });
    each.dataset.id = question.id;
    return each;
  });
  find("questions").replaceChildren(...buttons, ...extra);
  find("form").hidden = true;
  find("ask-section").hidden = selected().length === 0;
}

export const know = list => { questions = list; };
