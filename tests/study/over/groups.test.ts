/** Lists of sweeps as they go over a queue: each group comes out as its own case. Ring: identity. */

import { expect, test } from 'vitest';
import { openFile } from '../../../src/case/load.ts';
import { sentCase } from '../../../src/case/sent-case.ts';
import { hireForGroups } from '../../../src/study/over/groups.ts';
import { Inbox } from '../../../src/study/over/inbox.ts';
import { received } from '../../../src/study/over/parcel.ts';
import type { Job } from '../../../src/study/work/jobs.ts';

const draftA = new URL('../../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;
const program = 'echocone 1';

test('members of an ensemble: the same case, each with overrides and speeds of its own', () => {
  const list = {
    of: { kind: 'bands', name: 'members', program, what: { members: 3 } },
    sent: sentCase(openFile(draftA), ['pipe.sections.header.length=260 mm']),
    runSpeeds: [9000, 9500],
    cell: 0.02,
    groups: [
      { draft: 'member 1', speeds: [9000], set: ['pipe.sections.header.length=255 mm'] },
      { draft: 'member 2', speeds: [9500] },
      { draft: 'member 3', speeds: [9000, 9500], durationDeg: 190 },
    ],
  };
  const { parcelOf, ...hire } = hireForGroups(list, { over: 'redis://h', say: () => {} });
  expect(hire).toMatchObject({ kind: 'bands', name: 'members', program });
  expect(hire.fingerprint).toMatch(/^[0-9a-f]{64}$/);
  const taken = list.groups.map((_, index) => {
    const sent = JSON.parse(JSON.stringify(parcelOf({} as Job, index)));
    const answer = received(sent, program);
    if (!answer.ok || answer.job.kind !== 'speed-group') throw new Error('refused');
    const { subject, speeds } = answer.job.input;
    const header = subject.pipe.sections.find(({ name }) => name === 'header');
    return [header?.length, speeds, subject.run.speeds];
  });
  expect(taken).toEqual([
    [0.255, [9000], [9000, 9500]],
    [0.26, [9500], [9000, 9500]],
    [0.26, [9000, 9500], [9000, 9500]],
  ]);
});

test('a wait for news ends by news, by the clock or by the signal, and leaves no listener', async () => {
  const inbox = new Inbox<number>();
  const stop = new AbortController();
  let listeners = 0;
  const { signal } = stop;
  const add = signal.addEventListener.bind(signal);
  const remove = signal.removeEventListener.bind(signal);
  Object.assign(signal, {
    addEventListener: (...words: Parameters<typeof add>) => {
      listeners += 1;
      add(...words);
    },
    removeEventListener: (...words: Parameters<typeof remove>) => {
      listeners -= 1;
      remove(...words);
    },
  });
  expect(await inbox.news(1, signal)).toBe(false);
  setTimeout(() => inbox.put(7), 5);
  expect(await inbox.news(10_000, signal)).toBe(true);
  expect(inbox.take()).toBe(7);
  expect(listeners).toBe(0);
  setTimeout(() => stop.abort(new Error('cancelled')), 5);
  await expect(inbox.news(10_000, signal)).rejects.toThrow('cancelled');
});
