// What partials sound at one moment.

const Spectrum = {
  softest: 0.005, // of the strongest partial's strength
  highest: 8000, // Hz

  /// Each peak of the spectrum under a Hann window: its frequency in Hz, and its power.
  partials(samples, rate) {
    const bin = rate / samples.length;
    const powers = Spectrum.powers(samples).subarray(0, Math.ceil(Spectrum.highest / bin));
    const least = Spectrum.softest ** 2 * powers.reduce((most, power) => Math.max(most, power), 0);
    const found = [];
    for (let i = Math.ceil(40 / bin); i + 1 < powers.length; i++) {
      if (powers[i] <= least || powers[i] < powers[i - 1] || powers[i] <= powers[i + 1]) continue;
      const [before, top, after] = [powers[i - 1], powers[i], powers[i + 1]].map(Math.log);
      const off = (before - after) / (2 * (before - 2 * top + after)); // vertex of the parabola
      found.push({ hz: (i + off) * bin, power: Math.exp(top - 0.25 * (before - after) * off) });
    }
    return found;
  },

  powers(samples) {
    const real = Float64Array.from(samples, (sample, i) => sample * (1 - Math.cos((2 * Math.PI * i) / samples.length)));
    const imaginary = new Float64Array(samples.length);
    Spectrum.transform(real, imaginary);
    return real.map((x, i) => x * x + imaginary[i] ** 2);
  },

  /// The discrete Fourier transform of a power of two of samples, in place; halves first, order of bits afterwards.
  transform(real, imaginary) {
    for (let half = real.length >> 1; half >= 1; half >>= 1)
      for (let i = 0; i < half; i++)
        Spectrum.turnPairs(real, imaginary, i, half, (-Math.PI * i) / half);
    Spectrum.sortByBits(real, imaginary);
  },

  turnPairs(real, imaginary, first, half, angle) {
    const c = Math.cos(angle), s = Math.sin(angle);
    for (let a = first, b = a + half; b < real.length; a += 2 * half, b += 2 * half) {
      const x = real[a] - real[b], y = imaginary[a] - imaginary[b];
      real[a] += real[b], imaginary[a] += imaginary[b];
      real[b] = x * c - y * s, imaginary[b] = x * s + y * c;
    }
  },

  sortByBits(...arrays) {
    const length = arrays[0].length;
    for (let i = 0, j = 0; i < length; i++) {
      if (i < j) for (const array of arrays) [array[i], array[j]] = [array[j], array[i]];
      let bit = length >> 1;
      for (; bit >= 1 && j & bit; bit >>= 1) j ^= bit;
      j |= bit;
    }
  },
};
