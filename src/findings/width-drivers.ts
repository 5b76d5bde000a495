/**
 * What the width of a band comes from: for each answer, the share of its variance that goes with each input alone. An input that
 * were known exactly would take its share with it, so the band would keep the root of the rest,
 *
 *   width / width now = √(1 - share).
 */

/** An answer that is asked about, and each input's share of its variance with the error of that share. */
export interface AnswerDrivers {
  readonly answer: 'torque_nm' | 'works_from_rpm' | 'works_to_rpm' | 'best_power_kw';
  /** Where, for torque: the target or the speed of most torque; null: it is of no one speed. */
  readonly speed_rpm: number | null;
  /** Members that have it. */
  readonly count: number;
  /** The largest first. */
  readonly shares: readonly InputShare[];
}

export interface InputShare {
  readonly path: string;
  readonly share: number;
  /** One standard error of the share. */
  readonly error: number;
  /** The input goes together with others of this name, which show the same share; empty: it goes by itself. */
  readonly together: string;
}

/** A share that is told: it stands out of its error. */
export const isTold = ({ share, error }: InputShare): boolean => share > 2 * error && share >= 0.03;

/** By how much a band would be narrower without an input [-]. */
export const narrower = (share: number): number => 1 - Math.sqrt(1 - Math.min(1, Math.max(0, share)));

/** The shares that are told, one of each that go together. */
export function toldShares({ shares }: AnswerDrivers): readonly InputShare[] {
  const groups = new Set<string>();
  return shares.filter((one) => {
    if (!isTold(one) || groups.has(one.together)) return false;
    if (one.together !== '') groups.add(one.together);
    return true;
  });
}

/** What is best measured: for the edges of the band, for torque, and what they would bring together. */
export interface WorthMeasuring {
  /** The input on which both edges hang most, and by how much narrower each would be. */
  readonly edges: { readonly path: string; readonly lower: number; readonly upper: number } | null;
  /** Where there is none, the largest share in the variance of an edge, which its error may explain; null: none at all. */
  readonly likely: InputShare | null;
  readonly torque: InputShare | null;
  /** The inputs on which torque hangs most, and by how much its band would be narrower without all of them. */
  readonly together: { readonly paths: readonly string[]; readonly narrower: number } | null;
}

/** Inputs that are told together. */
const TOGETHER = 3;

export function worthMeasuring(drivers: readonly AnswerDrivers[]): WorthMeasuring {
  const of = (answer: AnswerDrivers['answer']): readonly InputShare[] => {
    const found = drivers.find((one) => one.answer === answer);
    return found === undefined ? [] : toldShares(found);
  };
  const [lower, upper, torque] = [of('works_from_rpm'), of('works_to_rpm'), of('torque_nm')];
  const shareOf = (shares: readonly InputShare[], path: string): number =>
    shares.find((one) => one.path === path)?.share ?? 0;
  const paths = [...new Set([...lower, ...upper].map(({ path }) => path))];
  const sum = (path: string): number => shareOf(lower, path) + shareOf(upper, path);
  const [first] = paths.sort((a, b) => sum(b) - sum(a));
  const ofEdges = drivers.filter(({ answer }) => answer === 'works_from_rpm' || answer === 'works_to_rpm');
  const [largest] = ofEdges.flatMap(({ shares }) => shares).sort((a, b) => b.share - a.share);
  const most = torque.slice(0, TOGETHER);
  return {
    edges:
      first === undefined
        ? null
        : {
            path: first,
            lower: narrower(shareOf(lower, first)),
            upper: narrower(shareOf(upper, first)),
          },
    likely: first === undefined && largest !== undefined && largest.share > 0 ? largest : null,
    torque: torque[0] ?? null,
    together:
      most.length < 2
        ? null
        : {
            paths: most.map(({ path }) => path),
            narrower: narrower(most.reduce((all, { share }) => all + share, 0)),
          },
  };
}
