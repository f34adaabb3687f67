// Talks to the desk behind the page. Every address is relative, so that it carries the secret.

let tab = "";
let answers = ""; // the address of the frames, which have an origin of their own

export const known = () => sessionStorage.getItem("tab") || "";

function address(path, parameters) {
  const query = new URLSearchParams(parameters);
  if (tab) query.append("tab", tab);
  return `${path}?${query}`;
}

async function answer(response) {
  const said = await response.json().catch(() => ({ trouble: `the desk answers ${response.status}` }));
  if (!response.ok) throw new Error(said.trouble || `the desk answers ${response.status}`);
  return said;
}

async function ask(method, path, parameters, body) {
  let response;
  try {
    response = await fetch(address(path, parameters), { method, body });
  } catch {
    throw new Error("the desk does not answer: it has ended, or was cut off");
  }
  return answer(response);
}

export const get = (path, parameters = []) => ask("GET", path, parameters);
export const post = (path, parameters = []) => ask("POST", path, parameters);
export const put = (path, parameters, body) => ask("PUT", path, parameters, body);

/// The addresses of what a job has made: its page and its file.
export const page = job => answers + address("answer", [["job", job]]);
export const file = job => address("out", [["job", job]]);

/// Opens this page's own desk, the one it had before where that is still there.
export async function open() {
  const opened = await post("open", [["tab", known()]]);
  tab = opened.tab;
  answers = opened.answers;
  sessionStorage.setItem("tab", tab);
  return opened.things;
}

/// Lets the desk know that this page is still there.
export const stayAlive = () => setInterval(() => post("alive").catch(() => {}), 60000);

const pause = time => new Promise(wake => setTimeout(wake, time));

/// Waits for the end of a job, asking more and more seldom; `progress` is told the part done.
export async function finished(job, progress = () => {}) {
  for (let time = 15; ; time = Math.min(500, time * 1.4)) {
    const state = await get("job", [["job", job]]);
    if (state.ended) return state;
    progress(state.done);
    await pause(time);
  }
}
