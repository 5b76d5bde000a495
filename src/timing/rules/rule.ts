/**
 * A rule of thumb as advice: what was found, what is usual, why, and what moves it. Nothing here passes or fails an
 * engine; `outside` only says on which side of the usual range the value lies.
 */
import type { Engine } from '../../model/engine.ts';
import type { Pipe } from '../../model/pipe.ts';
import type { PipeLengths, SectionRow } from '../../pipe/pipe-table.ts';
import type { EngineEvents } from '../events.ts';
import type { ReleaseEstimate } from '../release-estimate.ts';
import type { TimeAreas } from '../time-area.ts';
import type { Volumes } from '../volume.ts';

export const NO_SOURCE = 'common practice, no source';
export const JENNINGS = "Jennings, Two-Stroke Tuner's Handbook (1973)";
export const BLAIR = 'Blair, Design and Simulation of Two-Stroke Engines (1996)';
export const BLAIR_MEMORY = `${BLAIR}, value from memory, unverified`;

export type Range = readonly [low: number, high: number];

export interface RuleFinding {
  readonly id: string;
  readonly title: string;
  /** Value found, in `unit`; null where the case does not say enough. */
  readonly found: number | null;
  readonly unit: string;
  readonly usual: Range;
  readonly outside: 'below' | 'above' | 'no' | 'unknown';
  readonly reason: string;
  readonly source: string;
  /** What moves it, in a few words. */
  readonly movedBy: string;
  /** What to do with numbers, one or two sentences. */
  readonly advice: string;
}

/** Everything that a rule may look at. */
export interface RuleInput {
  readonly engine: Engine;
  readonly pipe: Pipe;
  readonly events: EngineEvents;
  readonly volumes: Volumes;
  readonly rows: readonly SectionRow[];
  readonly lengths: PipeLengths;
  /** Speed and brake mean effective pressure aimed at [rpm, Pa], gas temperature taken [K]. */
  readonly rpm: number;
  readonly bmep: number;
  readonly gasTemperature: number;
  readonly timeAreas: TimeAreas;
  readonly release: ReleaseEstimate;
  /** Largest exhaust area along the stream [m2]. */
  readonly effectivePortArea: number;
}

/** The advice for each side of the usual range. */
export interface Sides {
  readonly below: string;
  readonly within: string;
  readonly above: string;
  readonly unknown?: string;
}

export function finding(
  rule: Omit<RuleFinding, 'outside' | 'advice'> & { readonly sides: Sides },
): RuleFinding {
  const { sides, ...rest } = rule;
  const outside = sideOf(rest.found, rest.usual);
  const advice = {
    below: sides.below,
    above: sides.above,
    no: sides.within,
    unknown: sides.unknown ?? 'The case does not say enough.',
  }[outside];
  return { ...rest, outside, advice };
}

function sideOf(found: number | null, [low, high]: Range): RuleFinding['outside'] {
  if (found === null || !Number.isFinite(found)) return 'unknown';
  // A value that is over a limit only in decimals that the range does not claim is a tie, and within.
  const shown = (value: number): number => Number(value.toFixed(usualDigits([low, high])));
  if (shown(found) < shown(low)) return 'below';
  return shown(found) > shown(high) ? 'above' : 'no';
}

/** Decimals to which a usual range is told. */
export const usualDigits = ([, high]: Range): number => (high < 5 ? 2 : high < 20 ? 1 : 0);

/** A length in millimetres for a sentence. */
export function mm(metres: number): string {
  return `${(metres * 1000).toFixed(1)} mm`;
}

export function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
