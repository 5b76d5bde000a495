/**
 * The proof of aimed pipes on the case's own mesh: each over a range of speeds, and those that are offered with their header a
 * little shorter and longer than drawn, as a pipe comes off the bench. A millimetre anywhere before the baffle moves the wave
 * as one of header does.
 */

import type { Pipe } from '../../model/pipe.ts';
import { withLength } from '../../pipe/shape.ts';
import { neighbours } from '../work/run-sweep.ts';
import { brokenRules } from './buildable.ts';
import type { Judge } from './judge.ts';
import { meshed } from './mesh.ts';
import { BAND, judgedSpeeds } from './objective.ts';
import type { Question } from './question.ts';
import type { AimedPipe, SteppedPipe } from './result.ts';
import type { AimWish } from './wish.ts';

/** By how much a pipe comes off the bench longer or shorter than drawn [m]. Judgement, no source. */
const BUILD = 3e-3;

export interface ProofTask {
  /** In the journal. */
  readonly name: string;
  readonly pipe: Pipe;
  readonly cells: number;
  readonly judge: Judge;
}

/** Speeds that the curves of the proof are drawn over, those judged among them [rpm]. */
function proofSpeeds(target: number): readonly number[] {
  const around = [-3, -2, -1, -0.5, 0, 0.5, 1, 2, 3].map((by) => target + by * BAND);
  return around.filter((speed) => speed >= 500);
}

export function proofOf(
  { subject, target }: AimWish,
  { name, pipe, cells, judge }: ProofTask,
): Question<AimedPipe> {
  const groups = neighbours(proofSpeeds(target));
  return {
    asked: groups.map((speeds, k) => ({
      name: `proof ${name} ${k + 1}`,
      subject: meshed(subject, pipe, { cells, speeds, quick: false }),
    })),
    answer: (results) => {
      const rows = results.flatMap((result) => (result.ok ? result.rows : []));
      const rules = brokenRules({ engine: subject.engine, pipe });
      return { pipe, rows, judged: judge({ ok: true, rows }, pipe), rules };
    },
  };
}

export function builtOtherwise(
  { subject, target }: AimWish,
  { name, pipe, cells, judge }: ProofTask,
): Question<SteppedPipe['build']> {
  const header = Math.max(
    0,
    pipe.sections.findIndex(({ role }) => role === 'header'),
  );
  const length = pipe.sections[header]?.length ?? 0;
  const by = Math.min(BUILD, length / 2);
  const pipes = [-by, by].map((more) => withLength(pipe, header, length + more));
  return {
    asked: pipes.map((one, k) => ({
      name: `built ${k === 0 ? 'short' : 'long'} ${name}`,
      subject: meshed(subject, one, { cells, speeds: judgedSpeeds(target), quick: false }),
    })),
    answer: (results) => {
      const [less, more] = pipes.map((one, k) => {
        const result = results[k];
        return result === undefined ? null : (judge(result, one)?.torque ?? null);
      });
      return { by, less: less ?? null, more: more ?? null };
    },
  };
}
