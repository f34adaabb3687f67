// The line to type in: looks up the catalogue meanwhile, and puts what was typed on the desk.

import * as server from "./server.js";
import { button, find, say, trying } from "./parts.js";
import { chooseNone, putText } from "./things.js";

let timer;

async function putTyped(text) {
  if (!text.trim()) return say("Type something first.");
  chooseNone();
  if (await trying(() => putText(text))) {
    find("text").value = "";
    find("matches").replaceChildren();
  }
}

async function look() {
  const text = find("text").value;
  const begun = text.trim().length > 1 && !text.includes("\n") ? await server.post("look", [["text", text]]) : null;
  const state = begun ? await server.finished(begun.job) : { said: [] };
  if (text !== find("text").value) return; // typed on meanwhile
  find("matches").replaceChildren(...(state.said || []).map(match => {
    const item = document.createElement("li");
    item.append(button(`${match.name} (${match.kind})`, () => putTyped(match.id)));
    return item;
  }));
}

export function begin() {
  for (const example of find("examples").querySelectorAll("button"))
    example.addEventListener("click", () => putTyped(example.textContent));
  find("text").addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(() => look().catch(() => {}), 150);
  });
  find("text").addEventListener("keydown", event => {
    if (event.key !== "Enter" || event.shiftKey) return;
    event.preventDefault();
    putTyped(find("text").value);
  });
  find("typed").addEventListener("submit", event => {
    event.preventDefault();
    putTyped(find("text").value);
  });
}
