// The pitch of a sound, and the degree of the scale that lies nearest to it.

const Pitch = {
  lowest: 55, // Hz; hum of the mains at 50 Hz stays out
  highest: 1600,
  silence: 0.0008, // root mean square below which nothing is heard
  clarity: 0.9, // likeness of the sound to itself a period later, 1 for a perfect tone

  /// Samples that detect() wants.
  size: 8192,

  /// The fundamental of `samples` in Hz, or null where there is no clear tone.
  detect(samples, rate) {
    if (Pitch.level(samples) < Pitch.silence) return null;
    const period = Pitch.period(samples, rate);
    if (period === null) return null;
    const coarse = rate / period;
    const hz = Pitch.refined(samples, rate, Pitch.refined(samples, rate, coarse, 1024), 4096);
    return Math.abs(hz / coarse - 1) < 0.03 && hz >= Pitch.lowest && hz <= Pitch.highest ? hz : null;
  },

  level(samples) {
    let sum = 0;
    for (const sample of samples) sum += sample * sample;
    return Math.sqrt(sum / samples.length);
  },

  /// Samples after which the sound repeats. Source: P. McLeod, G. Wyvill, "A smarter way to find
  /// pitch", ICMC 2005: the first peak of the normalised square difference that is nearly as high
  /// as the highest.
  period(samples, rate) {
    const likeness = Pitch.likeness(Pitch.halved(samples), Math.ceil(rate / 2 / Pitch.lowest) + 2);
    const peaks = [];
    let lag = 1;
    while (lag < likeness.length && likeness[lag] > 0) lag++; // out of the peak at no lag at all
    for (; lag + 1 < likeness.length; lag++)
      if (likeness[lag] > 0 && likeness[lag] > likeness[lag - 1] && likeness[lag] >= likeness[lag + 1])
        peaks.push(lag);
    const best = Math.max(0, ...peaks.map(peak => likeness[peak]));
    if (best < Pitch.clarity) return null;
    const first = peaks.find(peak => likeness[peak] >= 0.85 * best);
    const [before, top, after] = [likeness[first - 1], likeness[first], likeness[first + 1]];
    return 2 * (first + (before - after) / (2 * (before - 2 * top + after))); // vertex of the parabola
  },

  /// Each two samples as one: a quarter of the work, and still fine enough to begin with.
  halved(samples) {
    return Float32Array.from({ length: samples.length >> 1 }, (_, i) => samples[2 * i] + samples[2 * i + 1]);
  },

  /// For each lag 2 sum x(i) x(i + lag) / sum (x(i)^2 + x(i + lag)^2), from -1 to 1.
  likeness(samples, lags) {
    const width = samples.length >> 1;
    const result = new Float64Array(lags);
    let energy = 0;
    for (let i = 0; i < width; i++) energy += 2 * samples[i] ** 2;
    for (let lag = 0; lag < lags; lag++) {
      let product = 0;
      for (let i = 0; i < width; i++) product += samples[i] * samples[i + lag];
      result[lag] = (2 * product) / energy;
      energy += samples[width + lag] ** 2 - samples[lag] ** 2;
    }
    return result;
  },

  /// A better frequency: how far each of four partials turns between two looks, `apart` samples
  /// from one another, tells how far it is from where it was looked for. Strong partials count most.
  refined(samples, rate, hz, apart) {
    let sum = 0, weights = 0;
    for (let n = 1; n <= 4 && n * hz < 0.4 * rate; n++) {
      const [x1, y1] = Pitch.look(samples, 0, (n * hz) / rate);
      const [x2, y2] = Pitch.look(samples, apart, (n * hz) / rate);
      const turned = Math.atan2(y2 * x1 - x2 * y1, x2 * x1 + y2 * y1);
      const weight = Math.hypot(x1, y1) * Math.hypot(x2, y2);
      sum += weight * (hz + (turned * rate) / (2 * Math.PI * apart * n));
      weights += weight;
    }
    return sum / weights;
  },

  /// Strength and phase at `turns` a sample of 4096 samples from `begin` on, under a Hann window;
  /// the phase is counted from sample 0.
  look(samples, begin, turns) {
    const width = samples.length >> 1;
    let x = 0, y = 0;
    for (let i = 0; i < width; i++) {
      const angle = 2 * Math.PI * ((turns * (begin + i)) % 1);
      const value = samples[begin + i] * (1 - Math.cos((2 * Math.PI * i) / width));
      x += value * Math.cos(angle);
      y -= value * Math.sin(angle);
    }
    return [x, y];
  },

  cents(a, b) {
    return 1200 * Math.log2(a / b);
  },

  /// The degree nearest to `hz` in any octave (or other period) of the scale: its index, how many
  /// periods up, and how many cents `hz` lies above it.
  nearest(scale, hz) {
    const all = scale.degrees.map((degree, index) => {
      const above = Pitch.cents(hz, degree.hz);
      const periods = scale.period ? Math.round(above / scale.period) : 0;
      return { index, periods, cents: above - periods * (scale.period || 0) };
    });
    return all.reduce((best, one) => (Math.abs(one.cents) < Math.abs(best.cents) ? one : best));
  },
};

/// Readings put together: a pitch counts once three in a row agree within 20 cents, and is the
/// middle one of those of the last half second.
class SteadyPitch {
  constructor() {
    this.readings = [];
  }

  /// Takes a reading (Hz, or null) at `time` in seconds; returns the steady pitch, or null.
  add(hz, time) {
    if (hz === null) {
      this.readings = [];
      return null;
    }
    if (this.readings.length && Math.abs(Pitch.cents(hz, this.readings.at(-1).hz)) > 20)
      this.readings = [];
    this.readings.push({ hz, time });
    this.readings = this.readings.filter(reading => time - reading.time < 0.5);
    if (this.readings.length < 3) return null;
    const sorted = this.readings.map(reading => reading.hz).sort((a, b) => a - b);
    return sorted[sorted.length >> 1];
  }
}
