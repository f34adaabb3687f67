// A WAVE file of one channel of 32-bit floating point numbers (RIFF; Microsoft, "Multiple channel
// audio data and WAVE files", 2007: fmt chunk of 18 bytes and a fact chunk for what is not PCM).

export function wave(blocks, rate) {
  const frames = blocks.reduce((sum, block) => sum + block.length, 0);
  const bytes = new DataView(new ArrayBuffer(58 + 4 * frames));
  let at = 0;
  const text = letters => { for (const letter of letters) bytes.setUint8(at++, letter.charCodeAt(0)); };
  const long = value => { bytes.setUint32(at, value, true); at += 4; };
  const short = value => { bytes.setUint16(at, value, true); at += 2; };
  text("RIFF"); long(50 + 4 * frames); text("WAVE");
  text("fmt "); long(18); short(3); short(1); long(rate); long(4 * rate); short(4); short(32); short(0);
  text("fact"); long(4); long(frames);
  text("data"); long(4 * frames);
  for (const block of blocks)
    for (const sample of block) { bytes.setFloat32(at, sample, true); at += 4; }
  return new Blob([bytes], { type: "audio/wav" });
}
