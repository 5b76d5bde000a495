// Natural logarithms of two positive normal numbers, to the last digit but one. With x = 2^k (1 + f), 1 + f between the roots of a half
// and of two, and s = f/(2 + f): ln(1 + f) = 2 atanh s = f - f^2/2 + s (f^2/2 + R(s^2)), R a minimax polynomial.
// Source: the method and the coefficients of fdlibm's e_log.c (Sun Microsystems 1993; from memory, held against the language's own).

import { add, both, COUNTER, div, mul, sub } from "./lanes";

/** Bits of one, of half the root of two rounded down, and of the counter. */
const ONE: i64 = 0x3ff0000000000000;
const LEAST: i64 = 0x3fe6a09e00000000;
const COUNTER_BITS: i64 = 0x4330000000000000;
const EXPONENT_OF_ONE: f64 = 1023;
const LN_2_HIGH: f64 = 6.93147180369123816490e-1;
const LN_2_LOW: f64 = 1.90821492927058770002e-10;

export function logarithms(x: v128): v128 {
  const moved = i64x2.add(x, i64x2.splat(ONE - LEAST));
  const counted = v128.or(i64x2.shr_u(moved, 52), i64x2.splat(COUNTER_BITS));
  const k = sub(counted, both(COUNTER + EXPONENT_OF_ONE));
  const part = i64x2.add(v128.and(moved, i64x2.splat(0x000fffffffffffff)), i64x2.splat(LEAST));
  const f = sub(part, both(1));
  const s = div(f, add(both(2), f));
  const z = mul(s, s), w = mul(z, z);
  const even = mul(w, add(both(3.999999999940941908e-1), mul(w, add(both(2.222219843214978396e-1), mul(w, both(1.531383769920937332e-1))))));
  const odd = mul(
    z,
    add(
      both(6.666666666666735130e-1),
      mul(w, add(both(2.857142874366239149e-1), mul(w, add(both(1.818357216161805012e-1), mul(w, both(1.479819860511658591e-1)))))),
    ),
  );
  const halved = mul(both(0.5), mul(f, f));
  const rest = add(mul(s, add(halved, add(even, odd))), mul(k, both(LN_2_LOW)));
  return sub(mul(k, both(LN_2_HIGH)), sub(sub(halved, rest), f));
}
