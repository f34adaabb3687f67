// Small helpers for elements.

export const find = id => document.getElementById(id);

/// An element with properties and children; a name with a dash is an attribute.
export function make(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties))
    if (key.includes("-") || key === "for" || key === "role") element.setAttribute(key, value);
    else element[key] = value;
  element.append(...children);
  return element;
}

export function button(text, click, properties = {}) {
  const element = make("button", { type: "button", ...properties }, text);
  element.addEventListener("click", click);
  return element;
}

let count = 0;

/// A label above its control.
export function labelled(text, control) {
  control.id = `field-${++count}`;
  return make("div", {}, make("label", { for: control.id }, text), control);
}

/// A checkbox with its text beside it.
export function checkbox(text, properties = {}) {
  const box = make("input", { type: "checkbox", ...properties });
  return make("label", { className: "check" }, box, text);
}

/// Said at the top of the page, and aloud by a screen reader.
export function say(text, trouble = false) {
  find("status").textContent = text;
  find("status").className = trouble ? "trouble" : "";
}

/// Does what may fail, and says why it did.
export async function trying(action) {
  try {
    return await action();
  } catch (error) {
    say(error.message, true);
    return undefined;
  }
}
