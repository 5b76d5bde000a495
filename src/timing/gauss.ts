/** Gauss–Legendre quadrature on five points, exact for polynomials of degree nine. */

const ROOT = Math.sqrt(70);
const INNER = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3;
const OUTER = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3;
const NODES: readonly (readonly [node: number, weight: number])[] = [
  [0, 128 / 225],
  [-INNER, (322 + 13 * ROOT) / 900],
  [INNER, (322 + 13 * ROOT) / 900],
  [-OUTER, (322 - 13 * ROOT) / 900],
  [OUTER, (322 - 13 * ROOT) / 900],
];

/** Integral of a smooth function from a to b. */
export function gauss(f: (x: number) => number, a: number, b: number): number {
  const half = (b - a) / 2;
  let sum = 0;
  for (const [node, weight] of NODES) sum += weight * f(a + half * (1 + node));
  return sum * half;
}
