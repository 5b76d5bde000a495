// Functions that every JavaScript engine rounds in its own way, compiled once for all of them: the same bits everywhere.
// The algorithms are those of the compiler's library, after musl.

export function power(x: f64, y: f64): f64 {
  return NativeMath.pow(x, y);
}

export function logarithm(x: f64): f64 {
  return NativeMath.log(x);
}

export function decimalLogarithm(x: f64): f64 {
  return NativeMath.log10(x);
}

export function exponentialLessOne(x: f64): f64 {
  return NativeMath.expm1(x);
}

export function sine(x: f64): f64 {
  return NativeMath.sin(x);
}

export function cosine(x: f64): f64 {
  return NativeMath.cos(x);
}

export function arcsine(x: f64): f64 {
  return NativeMath.asin(x);
}

export function arctangent(y: f64, x: f64): f64 {
  return NativeMath.atan2(y, x);
}
