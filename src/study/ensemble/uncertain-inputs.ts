/**
 * What of a case is not known exactly: every quantity that it assumes, by the plausible range of such quantities; every one
 * that it states with a measuring error, normal with half that error as standard deviation (± is two of them, see
 * `case/text/measured-text.ts`); and the wall of the pipe, given or assumed. Each is a path that `--set` takes.
 */

import { caseOf, type OpenedFile } from '../../case/load.ts';
import { unlessRefused } from '../../case/text/problem.ts';
import { numberAndUnit } from '../../case/text/quantity-text.ts';
import type { Case } from '../../model/case.ts';
import type { UsedInput } from '../../model/inputs.ts';
import { type PlausibleRange, plausibleRange } from './plausible-ranges.ts';
import { type CutSpread, type Spread, shareBelow, valueAtShare, valueOfScore } from './spread.ts';

export interface UncertainInput extends CutSpread {
  /** As `--set` takes it. */
  readonly path: string;
  /** The case's own number, in `unit`. */
  readonly central: number;
  /** Unit of all its numbers; empty: a plain number. */
  readonly unit: string;
  readonly why: 'assumed' | 'measured' | 'stated';
  readonly reason: string;
  /** Inputs of one group go together, by a correlation of their normal scores; null: it goes by itself. */
  readonly together: { readonly group: string; readonly correlation: number } | null;
}

/** Written with few enough figures that the text is the same wherever it is made. */
const FIGURES = 8;

/** A value as `--set` writes it. */
export function valueText({ unit }: Pick<UncertainInput, 'unit'>, value: number): string {
  return `${Number(value.toPrecision(FIGURES))} ${unit}`.trim();
}

/** The override that gives an input the value of a normal score. */
export function overrideAtScore(input: UncertainInput, score: number): string {
  return `${input.path}=${valueText(input, valueOfScore(input, score))}`;
}

/** All that is not known exactly of a case, in the order in which it is drawn; the overrides `set` stay in force. */
export function uncertainInputs(opened: OpenedFile, set: readonly string[]): readonly UncertainInput[] {
  const subject = caseOf(opened, set);
  const found = [...wallInputs(subject), ...subject.inputs.flatMap((one) => inputOf(subject, one))];
  const stated: string[] = [];
  return found.flatMap((input) => {
    const shares = allowedShares(input, (text) => isAllowed(opened, [...set, text]));
    // Of inputs of which one follows from the others, such as three areas of a taper, the last is no input of its own.
    const own = `${input.path}=${valueText(input, input.central)}`;
    if (shares === null || !isAllowed(opened, [...set, ...stated, own])) return [];
    stated.push(own);
    return [{ ...input, shares }];
  });
}

/** A spread of which this share is allowed is hardly cut [-]. */
const WHOLE = 0.9;

/** Stated measuring errors over whose range inputs do not go: what they belong to is a setting or cannot be changed alone. */
export function unusedErrors(
  opened: OpenedFile,
  set: readonly string[],
  inputs: readonly Pick<UncertainInput, 'path' | 'shares'>[],
): readonly string[] {
  const used = new Set(inputs.flatMap(({ path, shares: [low, high] }) => (high - low < WHOLE ? [] : [path])));
  return caseOf(opened, set).inputs.flatMap(({ path, measured }) =>
    measured === undefined || used.has(path) ? [] : [path],
  );
}

type Uncut = Omit<UncertainInput, 'shares'>;

function inputOf(subject: Case, { path, value, assumed, measured }: UsedInput): readonly Uncut[] {
  if (path.startsWith('pipe.wall.given') || path === 'pipe.wall' || isSetting(path)) return [];
  if (measured !== undefined) return [fromMeasured(path, measured)];
  const assumption = assumed ? subject.assumed.find((one) => one.path === path) : undefined;
  const line = assumption?.sort === 'quantity' ? plausibleRange(path) : undefined;
  const written = numberAndUnit(value);
  if (line === undefined || written === null) return [];
  const { number: central, unit } = written;
  return [{ path, central, unit, spread: spreadOf(line, central), why: 'assumed', ...told(line, path) }];
}

/** How a computation is run is chosen and not measured; `run` has two factors of physics. */
const isSetting = (path: string): boolean => /^run\.(?!mixing$|wallHeatFactor$)/.test(path);

/** Two standard deviations make what stands behind ±. */
const PER_ERROR = 2;

function fromMeasured(path: string, { number, error, unit }: NonNullable<UsedInput['measured']>): Uncut {
  return {
    path,
    central: number,
    unit,
    spread: { shape: 'normal', mean: number, sd: error / PER_ERROR },
    why: 'measured',
    reason: 'its measuring error; ± is two standard deviations (JCGM 100:2008, 6.2)',
    together: null,
  };
}

const told = ({ together, reason }: PlausibleRange, path: string) => ({
  reason,
  together:
    together === undefined ? null : { group: together.group(path), correlation: together.correlation },
});

function spreadOf({ range }: PlausibleRange, central: number): Spread {
  if (range.shape !== 'normal') return range;
  const sd = 'add' in range.sd ? range.sd.add : Math.abs(range.sd.share * central);
  return { shape: 'normal', mean: central, sd };
}

/** The pipe's wall: at both its ends where it is assumed, at each place where it is given; nothing where a balance finds it. */
function wallInputs({ pipe, inputs, assumed }: Case): readonly Uncut[] {
  const line = plausibleRange('pipe.wall');
  if (pipe.wall.by !== 'given' || line === undefined) return [];
  const isAssumed = assumed.some(({ path }) => path === 'pipe.wall');
  const paths = isAssumed
    ? ['pipe.wall.given.flange', 'pipe.wall.given.end']
    : inputs.flatMap(({ path }) =>
        /^pipe\.wall\.given(\.flange|\.end|\.\d+\.temperature)?$/.test(path) ? [path] : [],
      );
  return paths.flatMap((path, k): readonly Uncut[] => {
    const stated = inputs.find((one) => one.path === path);
    if (stated?.measured !== undefined) return [fromMeasured(path, stated.measured)];
    const kelvin = pipe.wall.by === 'given' ? pipe.wall.at[k]?.temperature : undefined;
    if (kelvin === undefined) return [];
    const central = Number((kelvin - CELSIUS).toFixed(6));
    const why = stated === undefined || stated.assumed ? ('assumed' as const) : ('stated' as const);
    return [{ path, central, unit: 'degC', spread: spreadOf(line, central), why, ...told(line, path) }];
  });
}

const CELSIUS = 273.15;

const isAllowed = (opened: OpenedFile, set: readonly string[]): boolean =>
  unlessRefused(() => caseOf(opened, set)) !== null;

/** Shares of a spread that are looked at first; halvings until the end of what is allowed is known. */
const ENDS = [0.001, 0.999] as const;
const HALVINGS = 9;
/** Less than this of a spread is none: the input is bound to others, as a joint is to the section that follows. */
const LEAST_SHARE = 0.01;

/**
 * Between which shares of its spread the reader of case files takes an input, the others as they are. Null: hardly any, or not even
 * the case's own value in its place.
 */
function allowedShares(input: Uncut, allows: (text: string) => boolean): readonly [number, number] | null {
  const at = (share: number): boolean =>
    allows(`${input.path}=${valueText(input, valueAtShare(input.spread, share))}`);
  const [low, high] = ENDS;
  const [lowFits, highFits] = [at(low), at(high)];
  if (lowFits && highFits) return [0, 1];
  const middle = Math.min(high, Math.max(low, shareBelow(input.spread, input.central)));
  if (!at(middle)) return null;
  const edge = (outside: number): number => {
    let [fits, fails] = [middle, outside];
    for (let k = 0; k < HALVINGS; k += 1) {
      const half = (fits + fails) / 2;
      if (at(half)) fits = half;
      else fails = half;
    }
    return fits;
  };
  const shares = [lowFits ? 0 : edge(low), highFits ? 1 : edge(high)] as const;
  return shares[1] - shares[0] < LEAST_SHARE ? null : shares;
}
