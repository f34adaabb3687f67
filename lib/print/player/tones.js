// Tones to listen to: a plucked string and a drone, each at exactly the frequency asked for.

const Tones = {
  /// Seconds that a plucked string sounds.
  length: 2.5,

  /// A plucked string as an AudioBuffer: partials at whole multiples of `hz`, as strong as a string
  /// plucked at a fifth of its length gives them to its bridge, the higher the sooner gone.
  pluck(context, hz, seconds = Tones.length) {
    const rate = context.sampleRate;
    const buffer = context.createBuffer(1, Math.round(seconds * rate), rate);
    const samples = buffer.getChannelData(0);
    const strengths = [];
    for (let n = 1; n === 1 || (n * hz < 12000 && n <= 40); n++)
      strengths.push(Math.sin((n * Math.PI) / 5) / n);
    const sum = strengths.reduce((total, strength) => total + Math.abs(strength), 0);
    strengths.forEach((strength, i) => Tones.addPartial(samples, rate, (i + 1) * hz, strength / sum));
    Tones.smoothEnds(samples, rate);
    return buffer;
  },

  /// A damped sine: a pointer that turns by the same angle and shrinks by the same part each sample.
  addPartial(samples, rate, hz, strength) {
    const angle = (2 * Math.PI * hz) / rate;
    const shrink = Math.exp(-(1.2 + 1.2e-8 * (2 * Math.PI * hz) ** 2) / rate);
    const cosine = shrink * Math.cos(angle), sine = shrink * Math.sin(angle);
    let x = strength, y = 0;
    for (let i = 0; i < samples.length; i++) {
      samples[i] += y;
      [x, y] = [x * cosine - y * sine, x * sine + y * cosine];
    }
  },

  /// Two milliseconds in, fifty out, so that nothing clicks.
  smoothEnds(samples, rate) {
    const shape = (count, at) => {
      for (let i = 0; i < count; i++) samples[at(i)] *= (1 - Math.cos((Math.PI * i) / count)) / 2;
    };
    shape(Math.round(0.002 * rate), i => i);
    shape(Math.round(0.05 * rate), i => samples.length - 1 - i);
  },

  /// A tone that stays, of twelve partials falling off as 1/n. It is started by who connects it.
  drone(context, hz) {
    const count = Math.max(1, Math.min(12, Math.floor(12000 / hz)));
    const sines = new Float32Array(count + 1);
    for (let n = 1; n <= count; n++) sines[n] = 1 / n;
    const oscillator = context.createOscillator();
    oscillator.setPeriodicWave(context.createPeriodicWave(new Float32Array(count + 1), sines));
    oscillator.frequency.value = hz;
    return oscillator;
  },
};
