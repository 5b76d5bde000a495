/**
 * Linear acoustics of loss-free ducts without mean flow: transfer matrices of cylinders and cones.
 *
 * [p1, Q1] = T [p2, Q2], Q volume velocity, exp(+j w t), k = w/c, rho c = 1 here. T = [[A, jB], [jC, D]] with A, B, C, D
 * real, det T = AD + BC = 1.
 *   Cylinder:  A = D = cos kL,  B = sin kL / S,  C = S sin kL.
 *   Cone of ends d1, d2 (areas S1, S2), apex distances x1 = d1 L/(d2 - d1), x2 = x1 + L, negative when converging:
 *     A = (x2/x1) cos kL - sin kL/(k x1),              B = (x2/x1) sin kL / S2,
 *     C = S1 [ (1 + k^2 x1 x2) sin kL - kL cos kL ]/(k x1)^2,   D = (S1 x2/(S2 x1)) [ cos kL + sin kL/(k x1) ].
 *
 * Source: M. L. Munjal, Acoustics of Ducts and Mufflers (1987, 2nd ed. 2014); from memory.
 */
import { firstRoot } from './root.ts';

/** A straight run of duct: length and the diameters of its ends [m]. */
export interface DuctSection {
  readonly length: number;
  readonly inlet: number;
  readonly outlet: number;
}

/** Real parts of a loss-free matrix [[a, j b], [j c, d]], rho c = 1. */
export interface TransferMatrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

/** Area of a circle of diameter `d` [m2]. */
export function circleArea(d: number): number {
  return (Math.PI / 4) * d * d;
}

/** Matrix of one section at the wave number `k` [1/m]. */
export function sectionMatrix(section: DuctSection, k: number): TransferMatrix {
  const { length, inlet, outlet } = section;
  const s1 = circleArea(inlet);
  const s2 = circleArea(outlet);
  const cos = Math.cos(k * length);
  const sin = Math.sin(k * length);
  if (inlet === outlet) return { a: cos, b: sin / s1, c: s1 * sin, d: cos };
  const x1 = (inlet * length) / (outlet - inlet);
  const x2 = x1 + length;
  return {
    a: (x2 / x1) * cos - sin / (k * x1),
    b: ((x2 / x1) * sin) / s2,
    c: (s1 * ((1 + k * k * x1 * x2) * sin - k * length * cos)) / (k * x1) ** 2,
    d: ((s1 * x2) / (s2 * x1)) * (cos + sin / (k * x1)),
  };
}

/** Matrix of two ducts in series. */
export function inSeries(first: TransferMatrix, second: TransferMatrix): TransferMatrix {
  return {
    a: first.a * second.a - first.b * second.c,
    b: first.a * second.b + first.b * second.d,
    c: first.c * second.a + first.d * second.c,
    d: first.d * second.d - first.c * second.b,
  };
}

/** Matrix of a row of sections, from the first inlet to the last outlet; areas may jump between them. */
export function ductMatrix(sections: readonly DuctSection[], k: number): TransferMatrix {
  let product: TransferMatrix = { a: 1, b: 0, c: 0, d: 1 };
  for (const section of sections) product = inSeries(product, sectionMatrix(section, k));
  return product;
}

/** The first `count` resonances of a duct closed at its inlet, open (p = 0) at its outlet [Hz]: the zeros of D. */
export function closedOpenResonances(
  sections: readonly DuctSection[],
  soundSpeed: number,
  count: number,
): number[] {
  const d = (f: number): number => ductMatrix(sections, (2 * Math.PI * f) / soundSpeed).d;
  const total = sections.reduce((sum, s) => sum + s.length, 0);
  // The mean spacing of resonances is c/2L; windows of a fortieth of it part neighbours.
  const window = soundSpeed / (80 * total);
  const found: number[] = [];
  for (let i = 0; found.length < count && i < 80 * (count + 4); i += 1) {
    const root = firstRoot(d, (i + 1e-3) * window, (i + 1 + 1e-3) * window, 1);
    if (root !== null) found.push(root);
  }
  return found;
}

/** Transmission loss between two endless pipes with the diameters of the ends [dB]. */
export function transmissionLoss(sections: readonly DuctSection[], k: number): number {
  const first = sections[0];
  const last = sections.at(-1);
  if (first === undefined || last === undefined) throw new RangeError('no sections');
  const { a, b, c, d } = ductMatrix(sections, k);
  const s1 = circleArea(first.inlet);
  const s2 = circleArea(last.outlet);
  // Incident over transmitted pressure: ( A + D S2/S1 + j (B S2 + C/S1) )/2, powers weighted by the areas.
  const real = a + (d * s2) / s1;
  const imaginary = b * s2 + c / s1;
  return 10 * Math.log10(((real * real + imaginary * imaginary) / 4) * (s1 / s2));
}

/** Transmission loss of a simple expansion chamber of area ratio `m` [dB]; Davis et al., NACA Report 1192 (1954), from memory. */
export function expansionChamberLoss(m: number, kL: number): number {
  return 10 * Math.log10(1 + 0.25 * (m - 1 / m) ** 2 * Math.sin(kL) ** 2);
}
