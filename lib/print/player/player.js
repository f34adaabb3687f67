// The player: plays the degrees, their neighbours among 12 equal steps and the drone, and listens.
// The sheet writes the scale beside this as JSON. Nothing is sent anywhere.

class Player {
  constructor(root, scale) {
    this.root = root;
    this.scale = scale;
    this.selected = 0;
    this.buffers = new Map(); // plucked strings by frequency
    this.find("[data-drone]").addEventListener("click", () => this.toggleDrone());
    this.find("[data-listen]").addEventListener("click", () => this.toggleListening());
    this.find("[data-stop]").addEventListener("click", () => this.stop());
    this.find("[data-volume]").addEventListener("input", () => this.setVolume());
    root.addEventListener("click", event => this.clicked(event));
    root.addEventListener("keydown", event => this.pressed(event));
    root.hidden = false;
  }

  find(selector) {
    return this.root.querySelector(selector);
  }

  /// Degree `index`; after the last one stands the upper tonic, where there is one.
  degree(index) {
    return this.scale.degrees[index] ?? this.scale.upper;
  }

  get last() {
    return this.scale.degrees.length - (this.scale.upper ? 0 : 1);
  }

  row(index) {
    return this.find(`[data-degree="${index}"]`);
  }

  // Sound.

  /// The audio context and its volume, made at the first sound, as browsers want it.
  audio() {
    if (!this.context) {
      this.context = new AudioContext();
      this.volume = this.context.createGain();
      this.volume.gain.value = 0; // the first sound swells
      this.volume.connect(this.context.destination);
      this.setVolume();
    }
    this.context.resume();
    return this.context;
  }

  setVolume() {
    const level = Number(this.find("[data-volume]").value) / 100;
    if (this.context) this.volume.gain.setTargetAtTime(0.5 * level ** 2, this.context.currentTime, 0.15);
  }

  pluck(hz) {
    const context = this.audio();
    if (!this.buffers.has(hz)) this.buffers.set(hz, Tones.pluck(context, hz));
    this.silence();
    const source = new AudioBufferSourceNode(context, { buffer: this.buffers.get(hz) });
    const gain = new GainNode(context);
    source.connect(gain).connect(this.volume);
    source.start();
    this.sounding = { source, gain };
  }

  /// Ends what was plucked before, without a click.
  silence() {
    if (!this.sounding) return;
    const { source, gain } = this.sounding;
    gain.gain.setTargetAtTime(0, this.context.currentTime, 0.02);
    source.stop(this.context.currentTime + 0.2);
    this.sounding = null;
  }

  toggleDrone() {
    const on = !this.drone;
    if (on) {
      const context = this.audio();
      const oscillator = Tones.drone(context, this.scale.drone.hz);
      const gain = new GainNode(context, { gain: 0 });
      gain.gain.setTargetAtTime(0.6, context.currentTime, 0.4);
      oscillator.connect(gain).connect(this.volume);
      oscillator.start();
      this.drone = { oscillator, gain, own: new OwnDrone(this.scale.drone.hz) };
    } else {
      this.drone.gain.gain.setTargetAtTime(0, this.context.currentTime, 0.1);
      this.drone.oscillator.stop(this.context.currentTime + 0.8);
      this.drone = null;
    }
    this.find("[data-drone]").setAttribute("aria-pressed", on);
  }

  stop() {
    this.silence();
    if (this.drone) this.toggleDrone();
  }

  /// Plays degree `index`, or its neighbour below (-1) or above (1).
  play(index, neighbour = 0) {
    const degree = this.degree(index);
    const tone = neighbour === 0 ? degree : neighbour < 0 ? degree.below : degree.above;
    this.selected = index;
    this.pluck(tone.hz);
    for (const row of this.root.querySelectorAll("[data-degree]"))
      row.classList.toggle("selected", row === this.row(index));
  }

  clicked(event) {
    const button = event.target.closest("[data-play]");
    if (button) this.play(Number(button.closest("[data-degree]").dataset.degree), Number(button.dataset.play));
  }

  /// Keys work while the focus is inside the player, so that they disturb nothing else.
  pressed(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || event.target.matches("input")) return;
    const last = this.last;
    const step = by => this.move(Math.min(last, Math.max(0, this.selected + by)));
    const actions = {
      ArrowDown: () => step(1),
      ArrowUp: () => step(-1),
      ArrowLeft: () => this.play(this.selected, -1),
      ArrowRight: () => this.play(this.selected, 1),
      d: () => this.toggleDrone(),
      m: () => this.toggleListening(),
      Escape: () => this.stop(),
    };
    const digit = "1234567890".indexOf(event.key);
    if (event.key in actions) actions[event.key]();
    else if (digit >= 0 && digit <= last) this.move(digit);
    else return;
    event.preventDefault();
  }

  move(index) {
    this.play(index);
    this.row(index).querySelector("[data-play='0']").focus();
  }

  // Listening.

  async toggleListening() {
    if (this.listening) return this.stopListening();
    try {
      if (!navigator.mediaDevices) throw new Error("this browser gives no microphone to a page opened from a disk");
      const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
      const stream = await navigator.mediaDevices.getUserMedia({ audio: plain });
      this.startListening(stream);
    } catch (error) {
      this.say(`No microphone: ${error.message}`);
    }
  }

  startListening(stream) {
    const context = this.audio();
    const analyser = new AnalyserNode(context, { fftSize: Pitch.size });
    context.createMediaStreamSource(stream).connect(analyser);
    const steady = new SteadyPitch();
    const samples = new Float32Array(Pitch.size);
    const timer = setInterval(() => {
      analyser.getFloatTimeDomainData(samples);
      this.show(steady.add(this.heard(samples, context.sampleRate), context.currentTime));
    }, 60);
    this.listening = { stream, timer };
    this.find("[data-listen]").setAttribute("aria-pressed", true);
    this.find("[data-reading]").hidden = false;
    this.say("Listening");
  }

  /// The pitch of the string in Hz, or null; what the page plays itself is none.
  heard(samples, rate) {
    if (!this.drone) return Pitch.detect(samples, rate);
    const rest = this.drone.own.without(samples, rate);
    const hz = rest && Pitch.detect(rest, rate, Pitch.shareAlone);
    return hz && !this.drone.own.is(hz) ? hz : null;
  }

  stopListening() {
    clearInterval(this.listening.timer);
    this.listening.stream.getTracks().forEach(track => track.stop());
    this.listening = null;
    this.find("[data-listen]").setAttribute("aria-pressed", false);
    this.find("[data-reading]").hidden = true;
    this.say("");
  }

  /// Shows a pitch in Hz; null leaves the dial empty, and the last degree marked as heard before.
  show(hz) {
    const reading = this.find("[data-reading]");
    reading.classList.toggle("quiet", hz === null);
    if (hz === null) {
      this.find("[data-name]").textContent = this.find("[data-cents]").textContent = "–";
      this.find("[data-key]").textContent = "";
      for (const mark of this.root.querySelectorAll("[data-heard]"))
        mark.textContent = mark.textContent.replace(/^heard/, "last heard");
      this.find("[data-hint]").textContent = "play one string";
      return;
    }
    const { index, periods, cents } = Pitch.nearest(this.scale, hz);
    const rounded = Math.round(cents) || 0; // no minus zero
    const signed = (rounded > 0 ? "+" : rounded < 0 ? "−" : "") + Math.abs(rounded);
    this.find("[data-name]").textContent = this.scale.degrees[index].label;
    const key = periods === 0 ? this.scale.degrees[index].key : periods === 1 && index === 0 ? this.scale.upper?.key ?? "" : "";
    this.find("[data-key]").textContent = key && `= ${key}`;
    this.find("[data-cents]").textContent = `${signed} cents`;
    this.find("[data-hint]").textContent =
      (rounded < 0 ? "too low" : rounded > 0 ? "too high" : "in tune") + this.where(periods);
    this.find("[data-needle]").style.left = `${50 + Math.max(-50, Math.min(50, cents))}%`;
    reading.dataset.hz = hz;
    this.mark(index, `${signed} cents`);
  }

  where(periods) {
    if (periods === 0) return "";
    const count = Math.abs(periods) === 1 ? `one ${this.scale.periodName}` : `${Math.abs(periods)} ${this.scale.periodName}s`;
    return `, ${count} ${periods > 0 ? "higher" : "lower"}`;
  }

  /// Names the degree last heard in the table, and now and then aloud.
  mark(index, cents) {
    for (const row of this.root.querySelectorAll("[data-degree]"))
      row.querySelector("[data-heard]").textContent = row === this.row(index) ? `heard, ${cents}` : "";
    const now = Date.now();
    if (now - (this.saidAt || 0) < 2000) return;
    this.saidAt = now;
    this.say(`${this.scale.degrees[index].label}, ${cents}`);
  }

  say(text) {
    this.find("[data-status]").textContent = text;
  }
}

/// What is wider than the screen says so; a finger or the keys move it.
function markCut() {
  for (const box of document.querySelectorAll(".wide"))
    box.toggleAttribute("data-cut", box.scrollWidth > box.clientWidth + 1);
}
addEventListener("resize", markCut);
markCut();

for (const root of document.querySelectorAll(".player"))
  root.player = new Player(root, JSON.parse(root.querySelector("script").textContent));
