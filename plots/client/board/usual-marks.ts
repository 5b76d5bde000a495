/**
 * Rules of thumb as quiet marks on the drawing: between which diameters a place usually lies, and between which places a cone,
 * the baffle or the stinger usually ends. Each is worked back from the rule's own finding, on the pipe that it was made of: a
 * ratio of areas goes with the square of a diameter, an angle φ with the length of its cone as tan(φ/2).
 */

import { TRANSITION } from '../../../src/pipe/places.ts';
import type { RuleFinding } from '../../../src/timing/rules/rule.ts';
import type { Stretch } from '../../marks/silhouette.ts';

/** A usual range: of a diameter at a place, or of the place where something ends, at a diameter. All in mm. */
export interface UsualMark {
  readonly of: 'diameter' | 'place';
  /** Ends of the range. */
  readonly range: readonly [low: number, high: number];
  /** Where it is drawn: the place along, or the diameter. */
  readonly at: number;
  readonly outside: boolean;
}

/** Half an angle's tangent. */
const half = (deg: number): number => Math.tan((deg * Math.PI) / 360);

export function usualMarks(
  rules: readonly RuleFinding[],
  stretches: readonly Stretch[],
): readonly UsualMark[] {
  return rules.flatMap((rule) => {
    const mark = rule.found !== null && rule.found > 0 ? markOf(rule, rule.found, stretches) : null;
    return mark === null ? [] : [{ ...mark, outside: rule.outside !== 'no' }];
  });
}

type Mark = Omit<UsualMark, 'outside'>;

function markOf({ id, usual }: RuleFinding, found: number, stretches: readonly Stretch[]): Mark | null {
  const flange = stretches.find(({ role }) => role === 'passage')?.end ?? 0;
  const across = (at: number, law: (share: number) => number): Mark => {
    const now = diameterAt(stretches, at);
    return { of: 'diameter', at, range: [now * law(usual[0] / found), now * law(usual[1] / found)] };
  };
  const along = (role: string, length: (edge: number) => number): Mark | null => {
    const [start, end] = spanOf(stretches, role);
    if (start === null || end === null) return null;
    const ends = usual.map((edge) => start + (end - start) * length(edge)).sort((a, b) => a - b);
    return { of: 'place', at: diameterAt(stretches, end), range: [ends[0]!, ends[1]!] };
  };
  const middleOf = (role: string): number | null => {
    const stretch = stretches.find((one) => one.role === role);
    return stretch === undefined ? null : (stretch.start + stretch.end) / 2;
  };
  const linear = (share: number): number => share;
  switch (id) {
    case 'passage-exit-area':
      return across(flange, Math.sqrt);
    case 'header-entry-area':
      return across(flange + 1000 * TRANSITION, Math.sqrt);
    case 'belly-diameter':
    case 'stinger-diameter': {
      const at = middleOf(id === 'belly-diameter' ? 'belly' : 'stinger');
      return at === null ? null : across(at, linear);
    }
    case 'diffuser-angle':
      return along('diffuser', (edge) => half(found) / half(edge));
    case 'baffle-angle':
      return along('baffle', (edge) => half(found) / half(edge));
    case 'stinger-length':
      return along('stinger', (edge) => edge / found);
    case 'tuned-length': {
      const [, end] = spanOf(stretches, 'baffle');
      // Told at the foot of the drawing, where no diameter is.
      return end === null
        ? null
        : { of: 'place', at: 0, range: [(end * usual[0]) / found, (end * usual[1]) / found] };
    }
    default:
      return null;
  }
}

/** From where to where all stages of a role reach [mm]. */
function spanOf(
  stretches: readonly Stretch[],
  role: string,
): readonly [start: number | null, end: number | null] {
  const stages = stretches.filter((one) => one.role === role);
  return [stages[0]?.start ?? null, stages.at(-1)?.end ?? null];
}

function diameterAt(stretches: readonly Stretch[], place: number): number {
  const { start, end, diameters } = stretches.find((one) => place <= one.end) ?? stretches.at(-1)!;
  return diameters[0] + ((diameters[1] - diameters[0]) * (place - start)) / (end - start || 1);
}
