/** Ring: identity. Members of a reconciliation as pieces: what is sent makes the same run, and nothing else is taken. */

import { expect, test } from 'vitest';
import { openFile } from '../../../src/case/load.ts';
import { runSpeed } from '../../../src/engine/run/run-speed.ts';
import { answerProblem, checksumOf, plain } from '../../../src/study/over/answer.ts';
import { received } from '../../../src/study/over/parcel.ts';
import { hireForMembers } from '../../../src/study/reconcile/hired-members.ts';
import { planReconcile } from '../../../src/study/reconcile/plan.ts';
import { runJob } from '../../../src/study/work/jobs.ts';
import { keptState, stateOf } from '../../../src/study/work/kept-state.ts';
import { runObserved } from '../../../src/study/work/observed.ts';

const program = 'echocone 1';
const draftA = new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;
const opened = openFile(draftA);
const plan = planReconcile({ opened, set: ['run.maxCycles=3'], files: [], count: 16, cell: 0.04, program });
const { state } = runSpeed({ subject: plan.subject, rpm: 9000, start: null, brief: true });
const kept = keptState(state);
const watched = { rpm: 9000, pressures: ['port' as const, 0.3], gas: [0.15], walls: [0.05] };
const input = { subject: plan.subject, speeds: [watched], starts: [kept], mostCycles: 2 };
const { hire, named } = hireForMembers(plan, { over: 'redis://h', say: () => {} });
const member = { name: '1/0', set: ['engine.combustion.start=-10 deg'], starts: [kept] };
named(input, member);
const sent = plain(hire.parcelOf({ kind: 'observed', input }, 0));

test('fields go through text with every bit, and what is no state is refused', () => {
  const { parts } = stateOf(kept);
  expect(parts).toEqual(state.parts);
  for (const wrong of ['', '[1]', '[{"ducts":[["AAAA"]],"volumes":[],"motion":""}]', kept.slice(0, -9)])
    expect(() => stateOf(wrong), wrong.slice(0, 20)).toThrow(RangeError);
  const notANumber = Buffer.from(Float64Array.of(Number.NaN).buffer).toString('base64');
  expect(() => stateOf(`[{"ducts":[],"volumes":[],"motion":"${notANumber}"}]`)).toThrow(RangeError);
});

test('a piece makes the run that a thread makes, and its answer is taken', async () => {
  const taken = received(sent, program);
  if (!taken.ok) throw new Error(taken.refusal);
  const over = plain(await runJob(taken.job));
  const own = planReconcile({
    ...{ opened, files: [], count: 16, cell: 0.04, program },
    set: ['run.maxCycles=3', ...member.set],
  });
  expect(over).toEqual(plain(runObserved({ ...input, subject: own.subject })));
  const outcome = { ok: true as const, value: over };
  const of = { program, arithmetic: 'a', draft: sent.draft };
  const answer = { ...of, lender: 'l', seconds: 1, finished: '', crc: checksumOf(outcome), outcome };
  expect(answerProblem(answer, of)).toBeNull();
  const odd = { ok: true as const, value: [{ ...(over as object[])[0], more: 1 }] };
  expect(answerProblem({ ...answer, outcome: odd, crc: checksumOf(odd) }, of)).toBe('it shows nothing');
});

test.each([
  ['keys that are not known', { watch: { ...sent.watch, file: '/etc/passwd' } }],
  ['a place that is none', { watch: { ...sent.watch, speeds: [{ ...watched, pressures: ['/dev/zero'] }] } }],
  ['fields of another number', { watch: { ...sent.watch, starts: [] } }],
  ['fields that are none', { watch: { ...sent.watch, starts: ['x'] } }],
  ['a megabyte of name', { draft: 'x'.repeat(1e6) }],
  ['fields without end', { watch: { ...sent.watch, starts: ['x'.repeat(5e6)] } }],
  ['nothing to look at', { watch: undefined }],
])('%s: refused in words', (_, change) => {
  const answer = received(plain({ ...sent, ...change }), program);
  expect(answer.ok).toBe(false);
  expect(answer).toMatchObject({ refusal: expect.stringMatching(/^it|^its/) });
});
