/**
 * What a reconciliation has to say: which inputs moved and by how much of their ranges, what the data could not tell, what was
 * not explained by any of it, and what is worth measuring next. A range is what lies between the 5th and the 95th
 * percentile.
 */

import { type Percentiles, percentilesOf } from '../percentile.ts';

/** An input of the engine, or what of the measuring was left free, over the members. */
export interface InputMembers {
  readonly path: string;
  /** Empty: a plain number. */
  readonly unit: string;
  /** Why its range is what it is. */
  readonly reason: string;
  /** Of the measuring and not of the engine. */
  readonly loose: boolean;
  /** Inputs of one group were drawn together; null: by itself. */
  readonly together: string | null;
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** Its middle after, which the reconciled engine has. */
  readonly middle: number;
}

export interface MeasuredPoint {
  /** Speed [rpm], angle [deg] or distance from the flange [m]. */
  readonly x: number;
  readonly value: number;
  /** Standard deviation of the measuring. */
  readonly error: number;
  /** What model and measuring together are off by as a rule, one standard deviation. */
  readonly allowed: number;
  readonly before: Percentiles;
  readonly after: Percentiles;
  /** Of the case as it is, and of the engine with the middle of all inputs. */
  readonly base: number;
  readonly central: number;
}

export interface MeasuredGroup {
  readonly kind: 'torque' | 'pressure' | 'gas' | 'wall';
  readonly name: string;
  /** Of a trace [rpm]; null: over speed or along the pipe. */
  readonly rpm: number | null;
  /** How many times its usual error the model was taken to be off by [-]. */
  readonly scale: number;
  readonly points: readonly MeasuredPoint[];
}

export interface ReconciledInput {
  readonly path: string;
  readonly unit: string;
  readonly reason: string;
  readonly loose: boolean;
  readonly before: Percentiles;
  readonly after: Percentiles;
  readonly middle: number;
  /** By how many of its ranges its middle moved [-]. */
  readonly moved: number;
  /** Its range after over that before [-]. */
  readonly narrowed: number;
}

export interface GroupFit {
  readonly kind: MeasuredGroup['kind'];
  readonly name: string;
  /** Root mean square of measured less predicted, in measuring errors: of the case as it is, and after. */
  readonly before: number;
  readonly after: number;
  /** Where what was measured lies beyond what the members and the errors of model and measuring allow. */
  readonly unexplained: readonly number[];
  readonly of: number;
}

export interface ReconcileAnswer {
  readonly inputs: readonly ReconciledInput[];
  /** Paths that moved or narrowed, the most first. */
  readonly told: readonly string[];
  /** Paths of which the data said nothing. */
  readonly untold: readonly string[];
  /** Pairs that the data know only together. */
  readonly tied: readonly { readonly paths: readonly [string, string]; readonly correlation: number }[];
  readonly fits: readonly GroupFit[];
  readonly verdict: 'explained' | 'partly' | 'not explained';
  /** What is left of the uncertainty of torque hangs on these, the most first. */
  readonly next: readonly { readonly path: string; readonly share: number }[];
}

/**
 * What chance does with N members goes as 1/√N: an input has moved from so many of those of its range on, and is narrowed
 * where so many are missing of its range; the data are silent where fewer are.
 */
const MOVED = 1;
const NARROWED = 2;
const SILENT = 1;
/** Two inputs are known only together from so much on, or so many of those, and where they were not so before. */
const TIED = 0.45;
const CHANCE = 4;
/** So many standard deviations are beyond chance at one point of a curve. */
const BEYOND = 2.6;
/** Share of a group's points that may lie beyond before it counts as not explained; a curve has few, a trace many. */
const MANY = 0.4;
const SOME: Readonly<Record<MeasuredGroup['kind'], number>> = { torque: 0, pressure: 0.08, gas: 0, wall: 0 };
/** A model this many times its usual error off is not the engine. */
const OFF = 6;
/** Shares of what is left that are worth telling, and how many. */
const WORTH = 0.05;
const NEXT = 3;

/** @param torque mean over the speeds of each member after, by which what is left is judged [N m] */
export function reconcileAnswer(
  members: readonly InputMembers[],
  groups: readonly MeasuredGroup[],
  torque: readonly number[],
): ReconcileAnswer {
  const inputs = members.map(reconciledInput);
  const size = ({ moved, narrowed }: ReconciledInput): number => Math.abs(moved) + Math.max(0, 1 - narrowed);
  const chance = 1 / Math.sqrt(Math.max(1, torque.length));
  const told = inputs.filter(
    ({ moved, narrowed }) => Math.abs(moved) >= MOVED * chance || narrowed <= 1 - NARROWED * chance,
  );
  const untold = inputs.filter(
    ({ moved, narrowed }) => Math.abs(moved) < MOVED * chance && narrowed >= 1 - SILENT * chance,
  );
  const fits = groups.map(fitOf);
  return {
    inputs,
    told: told.toSorted((a, b) => size(b) - size(a)).map(({ path }) => path),
    untold: untold.map(({ path }) => path),
    tied: tiedPairs(members, Math.max(TIED, CHANCE * chance)),
    fits,
    verdict: verdictOf(groups, fits),
    next: whatIsLeft(members, torque),
  };
}

function reconciledInput(one: InputMembers): ReconciledInput {
  const { path, unit, reason, loose, middle } = one;
  const before = percentilesOf(one.before);
  const after = percentilesOf(one.after);
  const range = ({ p05, p95 }: Percentiles): number => (p95 ?? 0) - (p05 ?? 0);
  const moved = range(before) > 0 ? ((after.p50 ?? 0) - (before.p50 ?? 0)) / range(before) : 0;
  const narrowed = range(before) > 0 ? range(after) / range(before) : 1;
  return { path, unit, reason, loose, before, after, middle, moved, narrowed };
}

function fitOf({ kind, name, points }: MeasuredGroup): GroupFit {
  const rms = (of: (point: MeasuredPoint) => number): number =>
    Math.sqrt(
      points.reduce((sum, point) => sum + ((point.value - of(point)) / point.error) ** 2, 0) / points.length,
    );
  return {
    kind,
    name,
    before: rms(({ base }) => base),
    after: rms(({ after }) => after.p50 ?? Number.NaN),
    unexplained: points.filter(isBeyond).map(({ x }) => x),
    of: points.length,
  };
}

/** Whether a point lies beyond the members and what model and measuring are off by as a rule. */
function isBeyond({ value, allowed, after }: MeasuredPoint): boolean {
  const { p05, p50, p95 } = after;
  if (p05 === null || p50 === null || p95 === null) return true;
  const spread = (p95 - p05) / (2 * 1.645);
  return Math.abs(value - p50) > BEYOND * Math.hypot(allowed, spread);
}

function verdictOf(groups: readonly MeasuredGroup[], fits: readonly GroupFit[]): ReconcileAnswer['verdict'] {
  const share = (fit: GroupFit): number => fit.unexplained.length / Math.max(1, fit.of);
  if (fits.some((fit, k) => share(fit) > MANY || groups[k]!.scale >= OFF)) return 'not explained';
  return fits.some((fit) => share(fit) > SOME[fit.kind]) ? 'partly' : 'explained';
}

function tiedPairs(members: readonly InputMembers[], least: number): ReconcileAnswer['tied'] {
  return members
    .flatMap((a, i) =>
      members.slice(i + 1).flatMap((b) => {
        const drawnTogether = a.together !== null && a.together === b.together;
        const correlation = correlationOf(a.after, b.after);
        const before = Math.abs(correlationOf(a.before, b.before));
        const fresh = Math.abs(correlation) > least && before < least / 2 && !drawnTogether;
        return fresh ? [{ paths: [a.path, b.path] as const, correlation }] : [];
      }),
    )
    .sort((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation));
}

/** Shares of what is left of torque's variance that go with each input, less what chance gives (Kelley 1935). */
function whatIsLeft(members: readonly InputMembers[], torque: readonly number[]): ReconcileAnswer['next'] {
  const n = torque.length;
  return members
    .filter(({ loose }) => !loose)
    .map(({ path, after }) => {
      const share = 1 - (1 - correlationOf(after, torque) ** 2) * ((n - 1) / (n - 2));
      return { path, share };
    })
    .filter(({ share }) => share >= WORTH)
    .sort((a, b) => b.share - a.share)
    .slice(0, NEXT);
}

function correlationOf(x: readonly number[], y: readonly number[]): number {
  const n = x.length;
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / n;
  const [mx, my] = [mean(x), mean(y)];
  let [xx, yy, xy] = [0, 0, 0];
  for (const [k, value] of x.entries()) {
    const other = y[k]! - my;
    xx += (value - mx) ** 2;
    yy += other ** 2;
    xy += (value - mx) * other;
  }
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}
