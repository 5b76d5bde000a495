/** The proof of an aimed pipe: it and what it is held against, run on the case's own mesh over a range of speeds. */

import type { Pipe } from '../../model/pipe.ts';
import { neighbours } from '../work/run-sweep.ts';
import type { Evaluator } from './evaluator.ts';
import { meshed } from './mesh.ts';
import { BAND, judge } from './objective.ts';
import type { AimedPipe, AimWish } from './result.ts';

/** Speeds that the curves of the proof are drawn over, apart from those judged [rpm]. */
function proofSpeeds(target: number): readonly number[] {
  const around = [-1500, -1000, -500, -BAND, 0, BAND, 500, 1000, 1500].map((by) => target + by);
  return around.filter((speed) => speed >= 1000);
}

/** Given pipe, start and result on the case's own mesh. */
export async function proved(
  { subject, target }: AimWish,
  pipes: readonly Pipe[],
  { fine, unit }: { fine: number; unit: number },
  evaluator: Evaluator,
): Promise<readonly AimedPipe[]> {
  const speeds = proofSpeeds(target);
  const groups = neighbours(speeds);
  const names = ['given', 'start', 'after'];
  const asked = pipes.flatMap((pipe, k) =>
    groups.map((group, g) => ({
      name: `proof ${names[k] ?? k} ${g + 1}`,
      subject: meshed(subject, pipe, { cells: fine, speeds: group, quick: false }),
    })),
  );
  // The start is often the given pipe itself.
  const same = pipes[0] === pipes[1];
  const results = await evaluator.results(
    asked.filter(({ name }) => !(same && name.startsWith('proof start'))),
  );
  let next = 0;
  const whole = pipes.map((pipe, k): AimedPipe | null => {
    if (same && k === 1) return null;
    const mine = results.slice(next, next + groups.length);
    next += groups.length;
    const rows = mine.flatMap((result) => (result.ok ? result.rows : []));
    return { pipe, rows, judged: judge({ ok: true, rows }, target, unit) };
  });
  return whole.map((one) => one ?? (whole[0] as AimedPipe));
}
