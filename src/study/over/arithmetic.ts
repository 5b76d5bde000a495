/**
 * Whether two machines compute alike to the last bit. Sums, products, quotients and square roots are exact by IEEE 754;
 * exponentials, logarithms, powers and angles are the JavaScript engine's own, compiled for the processor, which may join
 * a product and a sum into one rounding. So a fingerprint is taken of some thousand of their values: machines that
 * differ in one are not mixed in a study. It is a probe, no proof; the engine's version goes in as well.
 */

import { crc32 } from 'node:zlib';

const SAMPLES = 2_000;
const FUNCTIONS = [
  Math.exp,
  Math.log,
  Math.sin,
  Math.cos,
  Math.tan,
  Math.atan,
  Math.asin,
  Math.tanh,
  Math.cbrt,
  Math.expm1,
  Math.log1p,
];

/** `V8 11.3, 1c291ca3`. */
export function arithmeticOf(): string {
  const values = new Float64Array(SAMPLES * (FUNCTIONS.length + 3));
  let k = 0;
  for (let n = 1; n <= SAMPLES; n += 1) {
    const x = (n * 0.618033988749895) % 1;
    for (const f of FUNCTIONS) values[k++] = f(x);
    values[k++] = (1 + 9 * x) ** (0.4 - x);
    values[k++] = Math.hypot(x, 1 - x, n);
    values[k++] = Math.atan2(x - 0.5, 0.3);
  }
  const sum = crc32(new Uint8Array(values.buffer)).toString(16).padStart(8, '0');
  return `V8 ${process.versions.v8.split('.').slice(0, 2).join('.')}, ${sum}`;
}
