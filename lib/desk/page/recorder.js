// Records the microphone in the page: a countdown, a level, and a WAVE file on the desk.

import { find, make, trying } from "./parts.js";
import { chooseNone, putFile } from "./things.js";
import { wave } from "./wave.js";

const mostSeconds = 20 * 60;
const countdown = 3;
let recording = null;
let count = 0;

const state = text => { find("record-state").textContent = text; };
const pause = time => new Promise(wake => setTimeout(wake, time));

function shown(on) {
  find("record").hidden = on;
  find("record-stop").hidden = !on;
  find("level-label").hidden = !on;
}

async function microphone() {
  const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  return navigator.mediaDevices.getUserMedia({ audio: plain }).catch(error => {
    throw new Error(`No microphone: ${error.message}`);
  });
}

/// Blocks are kept from the end of the countdown on; the level shows the loudest of a block.
function take(block) {
  const loudest = block.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const meter = find("level");
  meter.value = Math.max(loudest, meter.value * 0.97);
  if (!recording.running) return;
  recording.blocks.push(block);
  recording.frames += block.length;
  const seconds = recording.frames / recording.context.sampleRate;
  if (Math.floor(seconds) === recording.said) return;
  recording.said = Math.floor(seconds);
  state(`Recording: ${recording.said} s`);
  if (seconds > mostSeconds) trying(end);
}

async function start() {
  const stream = await microphone();
  const context = new AudioContext();
  recording = { stream, context, blocks: [], frames: 0, said: -1, running: false };
  shown(true);
  find("record-stop").focus();
  await context.audioWorklet.addModule("tap.js");
  const tap = new AudioWorkletNode(context, "tap", { numberOfOutputs: 0 });
  tap.port.onmessage = event => recording && take(event.data);
  context.createMediaStreamSource(stream).connect(tap);
  for (let left = countdown; left > 0 && recording; --left) {
    state(`Recording begins in ${left} …`);
    await pause(1000);
  }
  if (recording) recording.running = true;
}

async function end() {
  const { stream, context, blocks } = recording;
  recording = null;
  stream.getTracks().forEach(track => track.stop());
  const rate = context.sampleRate;
  await context.close();
  shown(false);
  find("record").focus();
  if (!blocks.length) return state("Nothing was recorded.");
  const sound = wave(blocks, rate);
  const name = `recording-${++count}.wav`;
  const link = make("a", { href: URL.createObjectURL(sound), download: name }, `Save ${name}`);
  find("record-state").replaceChildren("Recorded. ", link);
  chooseNone();
  return putFile(sound, name);
}

export function begin() {
  find("record").addEventListener("click", () => trying(start).then(() => recording || shown(false)));
  find("record-stop").addEventListener("click", () => trying(end));
  addEventListener("beforeunload", event => { if (recording) event.preventDefault(); });
}
