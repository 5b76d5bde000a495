/**
 * The steps of an aim, from the least change of the given pipe to the most: its header trimmed, then header and baffle, then
 * every length with the belly's and the stinger's bore. Each begins with what the one before came to. Where the quantities are
 * named, or the handbook's pipe is asked for, there is one step.
 */

import type { Pipe } from '../../model/pipe.ts';
import { type AimQuantity, aimQuantities, roleLength } from './quantities.ts';
import type { AimWish, StepId } from './wish.ts';

export interface AimStep {
  readonly id: StepId;
  /** What it moves, ranged about a pipe. */
  readonly quantities: (about: Pipe) => readonly AimQuantity[];
  /** Drafts that it may run. */
  readonly mostDrafts: number;
}

/** Share of all drafts that a small step takes, and how many are enough for one and for two quantities. */
const SHARE = 0.15;
const ENOUGH = { one: 15, two: 36 } as const;

export function stepsOf({ subject, vary, from, mostDrafts }: AimWish): readonly AimStep[] {
  const whole = (id: StepId, drafts: number): AimStep => ({
    id,
    quantities: (about) => aimQuantities(about, vary),
    mostDrafts: drafts,
  });
  if (vary.length > 0) return [whole('asked', mostDrafts)];
  if (from === 'handbook') return [whole('all', mostDrafts)];
  const share = Math.round(SHARE * mostDrafts);
  const roles = (['header', 'baffle'] as const).filter((role) => roleLength(subject.pipe, role) !== null);
  const trims: AimStep[] = [];
  if (roles.includes('header')) trims.push(trim('header', ['header'], Math.min(share, ENOUGH.one)));
  if (roles.length === 2) trims.push(trim('header and baffle', roles, Math.min(share, ENOUGH.two)));
  const spent = trims.reduce((sum, step) => sum + step.mostDrafts, 0);
  return [...trims, whole('all', mostDrafts - spent)];
}

const trim = (id: StepId, roles: readonly ('header' | 'baffle')[], mostDrafts: number): AimStep => ({
  id,
  quantities: (about) => roles.flatMap((role) => roleLength(about, role) ?? []),
  mostDrafts,
});
