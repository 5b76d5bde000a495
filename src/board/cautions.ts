/** Changes that can wreck an engine or its rider, each said once: short, with what to watch. Common practice, no source. */

import type { Case } from '../model/case.ts';

export interface Caution {
  readonly id: 'stinger' | 'lean' | 'revs' | 'ignition' | 'compression';
  readonly says: string;
}

const narrowest = ({ pipe }: Case): number =>
  Math.min(...pipe.sections.map(({ diameter }) => Math.min(...diameter)));
const earliest = ({ engine }: Case): number => Math.min(...engine.combustion.start.map(({ deg }) => deg));
const highest = ({ run }: Case): number => Math.max(run.targetSpeed ?? 0, ...run.speeds);

/** What a case asks for beyond its base. */
export function cautionsOf(base: Case, now: Case): readonly Caution[] {
  const found: Caution[] = [];
  const say = (is: boolean, id: Caution['id'], says: string): void => {
    if (is) found.push({ id, says });
  };
  say(
    narrowest(now) < narrowest(base),
    'stinger',
    'A narrower stinger heats the piston: open it in small steps, jet rich first and read the plug.',
  );
  say(
    now.engine.fuel.equivalenceRatio < base.engine.fuel.equivalenceRatio,
    'lean',
    'A leaner mixture runs hotter and can seize: the model knows no detonation and no piston.',
  );
  say(
    highest(now) > highest(base),
    'revs',
    'More revs: rod, big end and crankcase were built for a limit that the model does not know.',
  );
  say(
    earliest(now) < earliest(base),
    'ignition',
    'Earlier heat release asks for fuel that does not knock: the model does not compute knock.',
  );
  const { compression: before } = base.engine;
  const { compression } = now.engine;
  say(
    compression.basis === before.basis && compression.ratio > before.ratio,
    'compression',
    'More compression asks for fuel that does not knock: the model does not compute knock.',
  );
  return found;
}
