/**
 * How far lead, torque and power at the target move with each section and with the wall: central differences,
 * (f(x + h) - f(x - h)) / 2h, on meshes of the same number of cells, told per 10 mm and per 50 K. The lead is taken to move
 * as the centroid of the plug-back does: the peak of a flat-topped wave jumps from one of its shoulders to the other.
 */

import type { Case, Pipe } from '../../case/model.ts';
import type { DraftResult } from '../draft.ts';
import type { Asked, Evaluator } from './evaluator.ts';
import { meshed } from './mesh.ts';
import { withLength } from './shape.ts';

export interface Sensitivity {
  readonly name: string;
  /** `+10 mm` */
  readonly change: string;
  readonly leadDeg: number;
  readonly torqueNm: number;
  readonly powerKw: number;
  /** Changes of the torque one way and the other, for where it falls off an edge [Nm]. */
  readonly torqueLessNm: number;
  readonly torqueMoreNm: number;
}

/** What the table's numbers are per [m, K]. */
const LENGTH = 0.01;
const WARMTH = 50;
/** A section gives at most this share of its length to the difference. */
const MOST_SHARE = 0.4;

interface Difference {
  readonly name: string;
  readonly change: string;
  /** Half the difference over what the table tells per [-]. */
  readonly share: number;
  readonly below: Pipe;
  readonly above: Pipe;
}

function differencesOf(pipe: Pipe): readonly Difference[] {
  const lengths = pipe.sections.map(({ name, length }, index): Difference => {
    const h = Math.min(LENGTH, MOST_SHARE * length);
    return {
      name,
      change: '+10 mm',
      share: h / LENGTH,
      below: withLength(pipe, index, length - h),
      above: withLength(pipe, index, length + h),
    };
  });
  if (pipe.wall.by !== 'given') return lengths;
  const { at } = pipe.wall;
  const warmed = (by: number): Pipe => ({
    ...pipe,
    wall: {
      by: 'given',
      at: at.map(({ position, temperature }) => ({ position, temperature: temperature + by })),
    },
  });
  return [
    ...lengths,
    { name: 'wall', change: '+50 K', share: 1, below: warmed(-WARMTH), above: warmed(WARMTH) },
  ];
}

/** At one speed [rpm]; a difference of which a side fails is left out. */
export async function sensitivitiesOf(
  { subject, pipe, target, cells }: { subject: Case; pipe: Pipe; target: number; cells: number },
  evaluator: Evaluator,
): Promise<readonly Sensitivity[]> {
  const differences = differencesOf(pipe);
  const base: Asked = {
    name: 'middle',
    subject: meshed(subject, pipe, { cells, speeds: [target], quick: false }),
  };
  const sides = differences.flatMap(({ name, below, above }): Asked[] =>
    [below, above].map((side, k) => ({
      name: `${k === 0 ? 'below' : 'above'} ${name}`,
      subject: meshed(subject, side, { cells, speeds: [target], quick: false }),
    })),
  );
  const [middle, ...results] = await evaluator.results([base, ...sides]);
  const torque = readingsOf(middle)?.torque ?? Number.NaN;
  return differences.flatMap(({ name, change, share }, k): Sensitivity[] => {
    const [below, above] = [readingsOf(results[2 * k]), readingsOf(results[2 * k + 1])];
    if (below === null || above === null) return [];
    const slope = (column: keyof typeof below): number => (above[column] - below[column]) / (2 * share);
    return [
      {
        name,
        change,
        leadDeg: slope('lead'),
        torqueNm: slope('torque'),
        powerKw: slope('power'),
        torqueLessNm: (below.torque - torque) / share,
        torqueMoreNm: (above.torque - torque) / share,
      },
    ];
  });
}

function readingsOf(result: DraftResult | undefined): { lead: number; torque: number; power: number } | null {
  const row = result?.ok === true ? result.rows[0] : undefined;
  if (row === undefined) return null;
  const [centroid, torque, power] = [row.plugback_centroid_deg, row.torque_nm, row.power_kw].map((value) =>
    value === null ? Number.NaN : value,
  ) as [number, number, number];
  // Later is less lead.
  return [centroid, torque, power].every(Number.isFinite) ? { lead: -centroid, torque, power } : null;
}
