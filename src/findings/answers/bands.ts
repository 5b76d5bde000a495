/**
 * How sure a sweep's answers are: what its members spread to, in how many of them the wave lands, what the width comes from,
 * and what was varied. As a document it is what `sweep.json` holds as `bands` and `chances`.
 */

import {
  type Chance,
  landingChances,
  type MemberBands,
  type MemberSweep,
  memberBands,
  type SpeedChance,
} from '../member-bands.ts';
import type { AnswerDrivers } from '../width-drivers.ts';

/** An input that members differ in. */
export interface VariedInput {
  readonly path: string;
  readonly unit: string;
  /** As the case has it; null: not known. */
  readonly central: number | null;
  /** Between these lie nine in ten. */
  readonly p05: number;
  readonly p95: number;
  readonly why: 'assumed' | 'measured' | 'stated' | 'members file';
  readonly reason: string;
}

export interface BandsAnswer {
  readonly bands: MemberBands;
  /** Cells that members were run on [m]. */
  readonly cell: number;
  readonly inputs: readonly VariedInput[];
  readonly drivers: readonly AnswerDrivers[];
  readonly chances: SweepChances;
}

export interface SweepChances {
  /** That the wave lands at the target; null: it was not run there. */
  readonly lands_at_target: (Chance & { readonly speed_rpm: number }) | null;
  readonly lands: readonly SpeedChance[];
}

export function bandsAnswer(
  members: readonly MemberSweep[],
  of: {
    readonly speeds: readonly number[];
    readonly targetSpeed: number | null;
    readonly cell: number;
    readonly inputs: readonly VariedInput[];
    readonly drivers: readonly AnswerDrivers[];
  },
): BandsAnswer {
  const { speeds, targetSpeed, cell, inputs, drivers } = of;
  const landing = landingChances(members, speeds);
  const there = landing.find(({ speed_rpm }) => speed_rpm === targetSpeed);
  return {
    bands: memberBands(members, speeds),
    cell,
    inputs,
    drivers,
    chances: {
      lands_at_target: there === undefined ? null : { ...there.lands, speed_rpm: there.speed_rpm },
      lands: landing,
    },
  };
}

/** As a document. */
export function bandsDocument({ bands, cell, inputs, drivers, chances }: BandsAnswer) {
  return { bands: { ...bands, cell, inputs, drivers }, chances };
}
