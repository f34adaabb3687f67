// The drone that the page itself plays, told apart from the string that is tuned over it.

class OwnDrone {
  constructor(hz) {
    this.hz = hz;
    this.past = []; // strengths of the partials at earlier looks
  }

  static partials = 24;
  static remembered = 50; // looks, about three seconds
  static least = 8; // looks before anything is known of it

  /// The samples without the drone, or null where nothing else sounds or too little is known yet.
  /// How strong each partial is at other times, and by how much its neighbours are stronger now,
  /// tells what of it is the drone's: the string lies on some of the partials only.
  without(samples, rate) {
    const looks = [];
    for (let n = 1; n <= OwnDrone.partials && n * this.hz < 0.4 * rate; n++)
      looks.push(OwnDrone.look(samples, (n * this.hz) / rate));
    const strengths = looks.map(([x, y]) => Math.hypot(x, y));
    this.past.push(strengths);
    if (this.past.length > OwnDrone.remembered) this.past.shift();
    if (this.past.length < OwnDrone.least) return null;
    const rest = Float32Array.from(samples);
    this.now(strengths).forEach((now, i) => {
      const part = now / strengths[i];
      OwnDrone.subtract(rest, ((i + 1) * this.hz) / rate, looks[i][0] * part, looks[i][1] * part);
    });
    return Pitch.level(rest) < 0.1 * Pitch.level(samples) ? null : rest;
  }

  now(strengths) {
    const usual = strengths.map((_, i) => OwnDrone.ranked(this.past.map(past => past[i]), 0.25));
    const growth = strengths.map((strength, i) => strength / usual[i]);
    return strengths.map((strength, i) => {
      const near = growth.slice(Math.max(0, i - 3), i + 4).sort((a, b) => a - b);
      return Math.min(strength, near[1] * usual[i]);
    });
  }

  static ranked(values, part) {
    return values.sort((a, b) => a - b)[Math.floor(part * values.length)];
  }

  /// The drone's own pitch, in whatever octave below, is no string.
  is(hz) {
    return Math.abs(Pitch.cents(hz, this.hz)) < 30;
  }

  /// Cosine and sine at `turns` a sample, of all samples under a Hann window.
  static look(samples, turns) {
    let x = 0, y = 0;
    OwnDrone.along(samples.length, turns, (i, cosine, sine) => {
      const value = samples[i] * (1 - Math.cos((2 * Math.PI * i) / samples.length));
      x += value * cosine;
      y += value * sine;
    });
    return [(2 * x) / samples.length, (2 * y) / samples.length];
  }

  static subtract(samples, turns, x, y) {
    OwnDrone.along(samples.length, turns, (i, cosine, sine) => {
      samples[i] -= x * cosine + y * sine;
    });
  }

  /// A pointer that turns by the same angle each sample.
  static along(length, turns, take) {
    const c = Math.cos(2 * Math.PI * turns), s = Math.sin(2 * Math.PI * turns);
    let x = 1, y = 0;
    for (let i = 0; i < length; i++) {
      take(i, x, y);
      [x, y] = [x * c - y * s, x * s + y * c];
    }
  }
}
