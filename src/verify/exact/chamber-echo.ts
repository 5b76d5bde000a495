/**
 * What a whole chamber sends back of a small pulse: linear, loss-free, no mean flow, p = 0 at its outlet.
 *
 * With the chamber's matrix (transfer-matrix.ts) the impedance at the inlet is jB/D, and a wave arriving from an endless
 * pipe of the inlet's area S1 is reflected with  R(w) = (jB - D/S1)/(jB + D/S1),  |R| = 1.  The echo of the pulse
 *   f(t) = exp( -((t - at)/width)^2 )
 * is  r(t) = (1/2 pi) int F(w) R(w) exp(j w t) dw,  F its transform; taken as a sum over equally spaced frequencies up to
 * where F has died away. The sum repeats itself after 1/spacing: the echo must have rung out by then.
 * At w -> 0, R = -1 and the delay is  2 S1 int dx/S / c.
 *
 * Source: Munjal (1987) for the matrices; the sum derived here.
 */
import { circleArea, type DuctSection, ductMatrix } from './transfer-matrix.ts';

/** A pulse exp(-((t - at)/width)^2) [s]. */
export interface GaussianPulse {
  readonly at: number;
  readonly width: number;
}

/** A reflection factor: real and imaginary part [-]. */
export interface ReflectionFactor {
  readonly real: number;
  readonly imaginary: number;
}

/** R(w) at the chamber's inlet at the wave number `k` [1/m]. */
export function chamberReflection(sections: readonly DuctSection[], k: number): ReflectionFactor {
  const first = sections[0];
  if (first === undefined) throw new RangeError('no sections');
  const { b, d } = ductMatrix(sections, k);
  const y = d / circleArea(first.inlet);
  const size = b * b + y * y;
  return { real: (b * b - y * y) / size, imaginary: (2 * b * y) / size };
}

/** The echo over time at the inlet, over the pulse's amplitude [-]; `spacing` of the frequencies [Hz]. */
export function chamberEcho(
  sections: readonly DuctSection[],
  soundSpeed: number,
  pulse: GaussianPulse,
  spacing = 2,
): (t: number) => number {
  // exp(-(w width/2)^2) is below 1e-16 from w width/2 = 6.1 on.
  const count = Math.ceil(6.1 / (Math.PI * pulse.width * spacing));
  const cosine = new Float64Array(count);
  const sine = new Float64Array(count);
  const scale = 2 * spacing * pulse.width * Math.sqrt(Math.PI);
  cosine[0] = -scale / 2;
  for (let n = 1; n < count; n += 1) {
    const omega = 2 * Math.PI * n * spacing;
    const factor = chamberReflection(sections, omega / soundSpeed);
    const strength = scale * Math.exp(-((omega * pulse.width) ** 2) / 4);
    cosine[n] = strength * factor.real;
    sine[n] = -strength * factor.imaginary;
  }
  return (t) => {
    const step = 2 * Math.PI * spacing * (t - pulse.at);
    let sum = 0;
    for (let n = 0; n < count; n += 1) {
      sum += (cosine[n] ?? 0) * Math.cos(n * step) + (sine[n] ?? 0) * Math.sin(n * step);
    }
    return sum;
  };
}

/** Delay of the lowest frequencies: 2 S1 int dx/S / c [s]. */
export function lowFrequencyDelay(sections: readonly DuctSection[], soundSpeed: number): number {
  const first = sections[0];
  if (first === undefined) throw new RangeError('no sections');
  // Over a cone int dx/S = (4/pi) L/(d1 d2).
  const sum = sections.reduce((total, s) => total + s.length / (s.inlet * s.outlet), 0);
  return (2 * first.inlet * first.inlet * sum) / soundSpeed;
}
