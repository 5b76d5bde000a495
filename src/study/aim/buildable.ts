/**
 * How far a drawn pipe departs from common practice: the program's rules of thumb for pipes, each as the share by which it is
 * missed. A search that knows torque alone ends with headers that nobody can weld and stingers that burn pistons; so what
 * lies beyond a rule costs, and a pipe goes there only where it gains more.
 */

import type { Case } from '../../model/case.ts';
import { sectionRows } from '../../pipe/pipe-table.ts';
import { PIPE_RULES } from '../../timing/rules/pipe-rules.ts';
import { type RuleFinding, usualDigits } from '../../timing/rules/rule.ts';

type Drawn = Pick<Case, 'engine' | 'pipe'>;

/** A rule that a pipe does not keep to. */
export interface BrokenRule {
  readonly id: string;
  /** `Stinger length / diam. 3.7, usual 9.0 to 15.0` */
  readonly says: string;
  readonly reason: string;
  /** By how much it is missed, as a share of the limit [-]. */
  readonly miss: number;
}

/** Rules that a pipe does not keep to; what is over a limit by less than its decimals is a tie. */
export function brokenRules({ engine, pipe }: Drawn): readonly BrokenRule[] {
  const input = { engine, pipe, rows: sectionRows({ engine, pipe }) };
  return PIPE_RULES.map((rule) => rule(input)).flatMap((finding) => {
    const miss = missOf(finding);
    return miss === 0 ? [] : [{ id: finding.id, says: sayingOf(finding), reason: finding.reason, miss }];
  });
}

/**
 * All shares by which rules are missed, together, beyond what another pipe misses of each [-]: an aim from a pipe that goes by
 * other rules is not to be pressed into these, nor go further.
 */
export function beyondRules(draft: Drawn, allowed: readonly BrokenRule[] = []): number {
  return brokenRules(draft).reduce((sum, { id, miss }) => {
    const before = allowed.find((one) => one.id === id)?.miss ?? 0;
    return sum + Math.max(0, miss - before);
  }, 0);
}

function missOf({ found, outside, usual: [low, high] }: RuleFinding): number {
  if (found === null) return 0;
  if (outside === 'below') return (low - found) / low;
  return outside === 'above' ? (found - high) / high : 0;
}

function sayingOf({ title, found, unit, usual }: RuleFinding): string {
  const digits = usualDigits(usual);
  const [low, high] = usual.map((value) => value.toFixed(digits));
  return `${title} ${found?.toFixed(digits)}, usual ${low} to ${high}${unit === '-' ? '' : ` ${unit}`}`;
}
