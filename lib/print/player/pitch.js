// The pitch of a sound, and the degree of the scale that lies nearest to it.

const Pitch = {
  lowest: 55, // Hz; hum of the mains at 50 Hz stays out
  highest: 1600,
  silence: 0.0008, // root mean square below which nothing is heard
  share: 0.72, // of what sounds, one string makes at least this; the rest may be a drone
  shareAlone: 0.85, // the same, where the drone was taken away before

  /// Samples that detect() wants.
  size: 8192,

  /// The fundamental of `samples` in Hz, or null where no string is clearly the loudest.
  detect(samples, rate, share = Pitch.share) {
    if (Pitch.level(samples) < Pitch.silence) return null;
    const partials = Spectrum.partials(samples, rate);
    const coarse = Pitch.loudest(partials, share);
    if (coarse === null) return null;
    const clear = Pitch.clear(partials, coarse, rate / samples.length);
    const hz = Pitch.refined(samples, rate, Pitch.refined(samples, rate, coarse, 1024, clear), 4096, clear);
    return Math.abs(hz / coarse - 1) < 0.03 && hz >= Pitch.lowest && hz <= Pitch.highest ? hz : null;
  },

  level(samples) {
    let sum = 0;
    for (const sample of samples) sum += sample * sample;
    return Math.sqrt(sum / samples.length);
  },

  /// The highest fundamental whose partials make most of what sounds, as in D. J. Hermes, "Measurement of pitch by
  /// subharmonic summation", J. Acoust. Soc. Am. 83 (1988) 257; null for chords and noise. A drone below the string
  /// has its partials among the string's, and some of its own: those are too soft to make it the fundamental.
  loudest(partials, share) {
    const total = partials.reduce((sum, partial) => sum + partial.power, 0);
    const strong = [...partials].sort((a, b) => b.power - a.power).slice(0, 8);
    const all = strong.flatMap(partial => [1, 2, 3, 4, 5].map(n => Pitch.comb(partials, partial.hz / n)));
    const fit = all.filter(comb => comb.hz >= Pitch.lowest && comb.hz <= Pitch.highest
      && comb.power >= share * total && Pitch.isOneTone(comb));
    return fit.reduce((best, comb) => Math.max(best ?? 0, comb.hz), null);
  },

  /// The power of each whole multiple of `hz`, and of all of them.
  comb(partials, hz) {
    const powers = [];
    let power = 0;
    for (const partial of partials) {
      const n = Pitch.multiple(partial.hz, hz);
      if (n === 0) continue;
      powers[n] = (powers[n] ?? 0) + partial.power;
      power += partial.power;
    }
    return { hz, powers, power };
  },

  /// Which multiple of `hz` a partial is, 0 where none: within 2.5 Hz or 12 cents, as strings are stiff, but never
  /// so far that noise would do.
  multiple(partial, hz) {
    const n = Math.round(partial / hz);
    return Math.abs(partial - n * hz) < Math.min(Math.max(2.5, 0.007 * partial), hz / 8) ? n : 0;
  },

  /// Two strings in a simple ratio have a common fundamental that nobody plays: its first partial is missing, and
  /// so are some of the next.
  isOneTone(comb) {
    const has = n => (comb.powers[n] ?? 0) > 0.0005 * comb.power;
    return has(1) || [2, 3, 5, 7].every(has);
  },

  /// Which of the first four partials stand clear of what else sounds; all, where none does.
  clear(partials, hz, bin) {
    const others = partials.filter(partial => Pitch.multiple(partial.hz, hz) === 0);
    const clear = [1, 2, 3, 4].filter(n => others.every(other => Math.abs(other.hz - n * hz) > 5 * bin));
    return clear.length ? clear : [1, 2, 3, 4];
  },

  /// A better frequency: how far each of the `clear` partials turns between two looks, `apart` samples
  /// from one another, tells how far it is from where it was looked for. Strong partials count most.
  refined(samples, rate, hz, apart, clear) {
    let sum = 0, weights = 0;
    for (const n of clear) {
      if (n * hz >= 0.4 * rate) break;
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
