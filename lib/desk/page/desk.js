// The desk: brings its parts together.

import * as hand from "./hand.js";
import * as questions from "./questions.js";
import * as recorder from "./recorder.js";
import * as server from "./server.js";
import * as things from "./things.js";
import * as typing from "./typing.js";
import { find, trying } from "./parts.js";

function dropped(event) {
  event.preventDefault();
  find("drop").classList.remove("over");
  trying(() => things.putFiles([...event.dataTransfer.files]));
}

/// Files may be dropped anywhere on the page.
function takeFiles() {
  find("files").addEventListener("change", () => {
    trying(() => things.putFiles([...find("files").files]).then(() => { find("files").value = ""; }));
  });
  document.addEventListener("dragover", event => {
    event.preventDefault();
    find("drop").classList.add("over");
  });
  document.addEventListener("dragleave", () => find("drop").classList.remove("over"));
  document.addEventListener("drop", dropped);
}

/// What lay on the desk before, with those that are yet to be recognised.
async function opened() {
  let list = await server.open();
  while (list.some(thing => !thing.words)) {
    await new Promise(wake => setTimeout(wake, 60));
    list = await server.open();
  }
  things.show(list);
}

async function end() {
  await server.post("end");
  document.querySelector("main").replaceChildren("The desk has ended. This page can be closed.");
  find("end").remove();
}

async function begin() {
  takeFiles();
  typing.begin();
  recorder.begin();
  hand.begin();
  things.whenChanged(() => questions.offer(hand.offers()));
  find("end").addEventListener("click", () => trying(end));
  questions.know(await server.get("questions"));
  await opened();
  server.stayAlive();
  document.body.dataset.ready = "yes";
}

trying(begin);
