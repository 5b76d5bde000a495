/** The rule about the head, where the case states one. */

import { squishOf } from '../squish.ts';
import { finding, NO_SOURCE, type RuleFinding, type RuleInput } from './rule.ts';

/** Squish velocity against what is usual; nothing where the case has no head. */
export function headRules({ engine, volumes, rpm }: RuleInput): readonly RuleFinding[] {
  const { head } = engine;
  if (head === null) return [];
  const { velocity, deg } = squishOf(head, volumes, rpm);
  const where = `${(360 - deg).toFixed(0)} deg before top dead centre at ${rpm.toFixed(0)} rpm`;
  return [
    finding({
      id: 'squish-velocity',
      title: 'Squish velocity',
      found: velocity,
      unit: 'm/s',
      usual: [15, 30],
      reason: `Largest ${where}; friction and leaks of the gap are left out.`,
      source: NO_SOURCE,
      movedBy: 'squish clearance, band',
      sides: {
        below:
          'A smaller gap or a wider band would stir the charge more; a gap too small meets the crown at speed.',
        within: 'As usual.',
        above:
          'A wider gap or a narrower band would calm it; such a squish burns rough and works the crown hard.',
      },
    }),
  ];
}
