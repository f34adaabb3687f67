// Answers: the command's own page in a frame, the command to copy, the files to take away.

import * as server from "./server.js";
import { button, find, make, trying } from "./parts.js";
import { keep, nameOf } from "./things.js";

const names = {
  ".pdf": "PDF", ".html": "HTML", ".svg": "SVG", ".txt": "Text", ".csv": "CSV", ".json": "JSON", ".wav": "WAV",
  ".mid": "MIDI", ".syx": "SysEx", ".toml": "Scale file", ".musicxml": "MusicXML", ".mxl": "Compressed MusicXML",
  ".zip": "ZIP of all files",
};

function copier(command) {
  const code = make("code", {}, command);
  const copy = button("Copy", async () => {
    await navigator.clipboard.writeText(command);
    copy.textContent = "Copied";
  }, { "aria-label": "Copy the command" });
  return make("p", { className: "command" }, "The same by hand: ", code, " ", copy);
}

/// A line that says how far a job is, with its stop; what it becomes at the end is given back.
async function waited(line, job) {
  const bar = make("progress", { max: 1, value: 0, "aria-label": "Progress" });
  const stop = button("Stop", () => server.post("stop", [["job", job]]).catch(() => {}));
  let stopped = false;
  stop.addEventListener("click", () => { stopped = true; });
  const shown = setTimeout(() => line.replaceChildren("Working … ", bar, " ", stop), 400);
  const state = await server.finished(job, done => { bar.value = done; });
  clearTimeout(shown);
  line.replaceChildren();
  if (state.trouble) line.append(make("span", { className: "trouble" }, 
    stopped && !state.ok ? "Stopped." : state.trouble));
  return state;
}

/// Hands the file that a job has made to the browser, which saves it.
export function save(job, name) {
  const link = make("a", { href: server.file(job), download: name });
  link.click();
}

/// The sound that an answer has made, to be heard in the page.
function heard(job) {
  return make("audio", { controls: true, src: server.file(job), "aria-label": "The sound" });
}

/// Asks once more for a file, and hands it to the browser.
async function take(question, asked, ending, line) {
  const begun = await server.post("ask", [...asked, ["take", ending]]);
  line.parentNode.querySelector(".command").replaceWith(copier(begun.command));
  const state = await waited(line, begun.job);
  if (!state.ok || !state.out) return;
  save(begun.job, state.out);
  line.append(`${state.out} is taken away. `);
  if (ending === ".toml") line.append(button("Put it on the desk too", () => trying(() => keep(begun.job))));
}

function takers(question, asked, line) {
  const buttons = question.endings.map(ending =>
    button(names[ending] || ending, () => trying(() => take(question, asked, ending, line))));
  return make("p", { className: "row", role: "group", "aria-label": "Files to take away" }, "Take away:", ...buttons);
}

function frame(question, job) {
  return make("iframe", { title: question.label, src: server.page(job), sandbox: "allow-scripts allow-same-origin allow-popups",
    allow: "microphone; autoplay" });
}

// A frame is no higher than the answer in it, which says how high it is.
addEventListener("message", event => {
  const frame = [...document.querySelectorAll("article iframe")].find(f => f.contentWindow === event.source);
  if (frame && Number.isFinite(event.data)) frame.style.setProperty("--content", `${Math.max(event.data, 60) + 4}px`);
});

/// Asks, and shows the answer above those before.
export async function show(question, asked, things) {
  const line = make("p", { role: "status" });
  const heading = make("h2", { tabIndex: -1 }, `${question.label} — ${things.map(nameOf).join(", ").slice(0, 80)}`);
  const article = make("article", { "aria-busy": "true" }, heading, line);
  find("answers").prepend(article);
  await trying(async () => {
    const begun = await server.post("ask", asked).catch(error => {
      line.append(make("span", { className: "trouble" }, error.message));
      throw error;
    });
    line.before(copier(begun.command));
    const state = await waited(line, begun.job);
    if (!state.ok) return;
    const away = button("Put away", () => article.remove());
    const alone = make("a", { href: server.page(begun.job), target: "_blank", rel: "noopener" }, "Open it alone");
    line.before(takers(question, asked, line));
    if (state.out && state.out.endsWith(".wav")) article.append(heard(begun.job));
    article.append(frame(question, begun.job), make("p", { className: "row" }, alone, away));
  });
  article.setAttribute("aria-busy", "false");
  article.dataset.done = "yes";
  heading.focus();
}
