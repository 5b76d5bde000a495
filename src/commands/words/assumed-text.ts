/** What a case left open, in a few lines: groups of inputs that were assumed, those first that move the answer most. */

import type { AssumedInput } from '../../model/inputs.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';

const WALL = 'pipe.wall';

/** What moves the answer most comes first: how fast the wave runs, then how it is made, then the rest as it was read. */
const IMPORTANCE = [
  WALL,
  'engine.exhaust.discharge',
  'engine.combustion',
  'engine.passage',
  'engine.scavenging',
  'engine.fuel',
  'engine.transfers',
  'engine.cylinderHeat',
  'engine.friction',
  'pipe',
];

function importance({ path }: { readonly path: string }): number {
  const at = IMPORTANCE.findIndex((group) => path === group || path.startsWith(`${group}.`));
  return at < 0 ? IMPORTANCE.length : at;
}

interface AssumedGroup {
  readonly text: string;
  readonly count: number;
}

/** Assumed quantities by the group that they belong to, the lone ones with their value. */
function assumedGroups(assumed: readonly AssumedInput[]): readonly AssumedGroup[] {
  const groups = new Map<string, string[]>();
  const quantities = assumed.filter((a) => a.sort === 'quantity');
  for (const one of quantities.toSorted((a, b) => importance(a) - importance(b))) {
    const group = one.path.split('.').slice(0, -1).join('.') || one.path;
    // The wall stands alone: it has the most to say.
    const key = one.path === WALL ? WALL : group;
    groups.set(key, [...(groups.get(key) ?? []), `${one.path} ${one.value}`]);
  }
  return [...groups].map(([group, all]) => ({
    text: all.length === 1 ? all[0]! : `${group} (${all.length})`,
    count: all.length,
  }));
}

/** Lines that the assumed quantities take at most. */
const ASSUMED_LINES = 3;

/** As many as the lines hold, and how many more there are. */
export function assumedText(assumed: readonly AssumedInput[]): string {
  const groups = assumedGroups(assumed);
  if (groups.length === 0) return '';
  for (let shown = groups.length; ; shown -= 1) {
    const rest = groups.slice(shown).reduce((sum, { count }) => sum + count, 0);
    const listed = groups
      .slice(0, shown)
      .map(({ text }) => text)
      .join('; ');
    const more = rest === 0 ? '' : `; and ${rest} more (--json)`;
    const text = `${folded(plainText(`Assumed (reasons: --json): ${listed}${more}.`))}\n`;
    if (shown === 1 || text.trimEnd().split('\n').length <= ASSUMED_LINES) return text;
  }
}
