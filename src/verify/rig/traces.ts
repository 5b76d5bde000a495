/** Readings from traces: extrema and crossings between the samples, values between them. */

export interface Trace {
  readonly t: number[];
  readonly y: number[];
}

export function newTrace(): Trace {
  return { t: [], y: [] };
}

export function add(trace: Trace, t: number, y: number): void {
  trace.t.push(t);
  trace.y.push(y);
}

export interface Reading {
  readonly t: number;
  readonly y: number;
}

/** The highest place between two times, by the parabola through the highest sample and its neighbours. */
export function crest(trace: Trace, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY): Reading {
  const { t, y } = trace;
  let best = -1;
  for (let i = 0; i < t.length; i++) {
    const time = t[i]!;
    if (time < from || time > to) continue;
    if (best < 0 || y[i]! > y[best]!) best = i;
  }
  if (best < 1 || best > t.length - 2) return { t: t[best] ?? Number.NaN, y: y[best] ?? Number.NaN };
  const [t0, t1, t2] = [t[best - 1], t[best], t[best + 1]] as [number, number, number];
  const [y0, y1, y2] = [y[best - 1], y[best], y[best + 1]] as [number, number, number];
  const d01 = (y1 - y0) / (t1 - t0);
  const d12 = (y2 - y1) / (t2 - t1);
  const curve = (d12 - d01) / (t2 - t0);
  if (!(curve < 0)) return { t: t1, y: y1 };
  const at = 0.5 * (t0 + t1 - d01 / curve);
  return { t: at, y: y0 + (at - t0) * (d01 + curve * (at - t1)) };
}

export function trough(trace: Trace, from?: number, to?: number): Reading {
  const found = crest({ t: trace.t, y: trace.y.map((value) => -value) }, from, to);
  return { t: found.t, y: -found.y };
}

/** First time after `from` at which the trace passes a level, upwards or downwards. */
export function crossing(trace: Trace, level: number, from = Number.NEGATIVE_INFINITY): number {
  const { t, y } = trace;
  for (let i = 1; i < t.length; i++) {
    const a = y[i - 1]! - level;
    const b = y[i]! - level;
    if (t[i]! > from && a !== b && a * b <= 0) {
      const t0 = t[i - 1]!;
      const at = t0 + (a / (a - b)) * (t[i]! - t0);
      if (at >= from) return at;
    }
  }
  return Number.NaN;
}

/** Value at a time, by the cubic through the four nearest samples. */
export function valueAt(trace: Trace, time: number): number {
  const { t, y } = trace;
  let i = t.findIndex((sample) => sample >= time);
  if (i < 0) i = t.length - 1;
  const first = Math.max(0, Math.min(t.length - 4, i - 2));
  let sum = 0;
  for (let a = first; a < first + 4; a++) {
    let weight = 1;
    for (let b = first; b < first + 4; b++) if (b !== a) weight *= (time - t[b]!) / (t[a]! - t[b]!);
    sum += weight * y[a]!;
  }
  return sum;
}
