/**
 * Percentiles of a handful of readings: straight between the ordered values, the k-th of n at the share (k - 1)/(n - 1)
 * (Hyndman & Fan, Am. Stat. 50 (1996) 361, definition 7).
 */

import type { Reading } from './row.ts';

export interface Percentiles {
  readonly p05: Reading;
  readonly p25: Reading;
  readonly p50: Reading;
  readonly p75: Reading;
  readonly p95: Reading;
  /** Readings that there are: those absent are left out. */
  readonly count: number;
}

/** The value below which a share of the ordered readings lies; null: there is none. */
export function percentile(ordered: readonly number[], share: number): number | null {
  const place = share * (ordered.length - 1);
  const below = ordered[Math.floor(place)];
  const above = ordered[Math.ceil(place)];
  if (below === undefined || above === undefined) return null;
  return below + (place - Math.floor(place)) * (above - below);
}

export function percentilesOf(readings: readonly Reading[]): Percentiles {
  const ordered = readings.filter((value) => value !== null).sort((a, b) => a - b);
  const at = (share: number): Reading => percentile(ordered, share);
  return {
    p05: at(0.05),
    p25: at(0.25),
    p50: at(0.5),
    p75: at(0.75),
    p95: at(0.95),
    count: ordered.length,
  };
}

/** Half of what lies between the 5th and the 95th percentile; null: there is no reading. */
export const halfWidth = ({ p05, p95 }: Percentiles): number | null =>
  p05 === null || p95 === null ? null : (p95 - p05) / 2;
