// The film's layers from their packed text (layer_codec.h), as 16-bit floats: red, green, blue of
// each pixel, rows from the top.

const floatBits = new Float32Array(1);
const intBits = new Int32Array(floatBits.buffer);

// The 16-bit float nearest to x; |x| up to 65504.
function halfOf(x) {
  floatBits[0] = Math.max(-65504, Math.min(65504, x));
  const bits = intBits[0];
  const sign = (bits >>> 16) & 0x8000;
  const exponent = ((bits >>> 23) & 0xff) - 112;
  const mantissa = bits & 0x7fffff;
  if (exponent <= 0) {
    if (exponent < -10) return sign;
    const shift = 14 - exponent;
    return sign | (((mantissa | 0x800000) + (1 << (shift - 1))) >> shift);
  }
  return sign | (((exponent << 10) | (mantissa >> 13)) + ((mantissa >> 12) & 1));
}

// All 65536 of them as numbers.
function makeHalfTable() {
  const table = new Float32Array(65536);
  for (let h = 0; h < 65536; h++) {
    const exponent = (h >> 10) & 31;
    const mantissa = h & 1023;
    const size = exponent === 0 ? mantissa * 2 ** -24 : (1 + mantissa / 1024) * 2 ** (exponent - 15);
    table[h] = h & 0x8000 ? -size : size;
  }
  return table;
}

const kPower = 1 / 2.4;
const kToe = 4e-4;

// The light of a number from 0 up, where full light is 1.
function lightOfNumber(q, steps) {
  return (q / steps + kToe ** kPower) ** (1 / kPower) - kToe;
}

const kMostNumber = 16383;

// The 16-bit float of each number, from -kMostNumber to kMostNumber.
function makeValueTable(layer) {
  const table = new Uint16Array(2 * kMostNumber + 1);
  for (let q = 0; q <= kMostNumber; q++) {
    const value = layer.full * lightOfNumber(q, layer.steps);
    table[kMostNumber + q] = halfOf(value);
    table[kMostNumber - q] = halfOf(-value);
  }
  return table;
}

// One plane of numbers from its low and high bytes; adds a share of `green` to each, in 256ths.
function readPlane(bytes, plane, width, count, green, share) {
  const numbers = new Int32Array(count);
  const low = 2 * plane * count;
  const high = low + count;
  for (let i = 0; i < count; i++) {
    const folded = bytes[low + i] | (bytes[high + i] << 8);
    const rest = folded & 1 ? -((folded + 1) >> 1) : folded >> 1;
    const x = i % width;
    let guess = 0;
    if (x > 0 && i >= width) {
      const left = numbers[i - 1];
      const above = numbers[i - width];
      const corner = numbers[i - width - 1];
      const least = Math.min(left, above);
      const most = Math.max(left, above);
      guess = Math.max(least, Math.min(most, left + above - corner));
    } else if (x > 0) {
      guess = numbers[i - 1];
    } else if (i >= width) {
      guess = numbers[i - width];
    }
    numbers[i] = guess + rest;
  }
  if (green) for (let i = 0; i < count; i++) numbers[i] += (share * green[i]) >> 8;
  return numbers;
}

const kDigits = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?,;>()[]{}@%$#";

// Bytes from digits of 85, five for four. Up to three zeros more than there were.
function readBase85(text) {
  const values = new Uint8Array(128);
  [...kDigits].forEach((digit, i) => {
    values[digit.charCodeAt(0)] = i;
  });
  const bytes = new Uint8Array((text.length / 5) * 4);
  for (let i = 0, at = 0; i < text.length; i += 5, at += 4) {
    let word = 0;
    for (let k = 0; k < 5; k++) word = word * 85 + values[text.charCodeAt(i + k)];
    bytes[at] = word >>> 24;
    bytes[at + 1] = (word >>> 16) & 255;
    bytes[at + 2] = (word >>> 8) & 255;
    bytes[at + 3] = word & 255;
  }
  return bytes;
}

async function inflate(text, size) {
  const packed = readBase85(text).subarray(0, size);
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

async function unpackLayer(text, layer, width, height) {
  const bytes = await inflate(text, layer.bytes);
  const count = width * height;
  const green = readPlane(bytes, 0, width, count, null, 0);
  const red = readPlane(bytes, 1, width, count, green, layer.red);
  const blue = readPlane(bytes, 2, width, count, green, layer.blue);
  const planes = [red, green, blue];
  const table = makeValueTable(layer);
  const halves = new Uint16Array(3 * count);
  for (let c = 0; c < 3; c++) {
    const plane = planes[c];
    for (let i = 0; i < count; i++) halves[3 * i + c] = table[kMostNumber + plane[i]];
  }
  return halves;
}
