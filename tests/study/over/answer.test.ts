import { describe, expect, test } from 'vitest';
import { type Answer, answerProblem, checksumOf } from '../../../src/study/over/answer.ts';
import { arithmeticOf } from '../../../src/study/over/arithmetic.ts';

const program = 'echocone 1';

describe('an answer', () => {
  const of = { program, arithmetic: arithmeticOf(), draft: 'full 1' };
  const outcome = { ok: true, value: { ok: true, rows: [{ speed_rpm: 9000, torque_nm: 17 }] } } as const;
  const answer: Answer = {
    ...of,
    lender: 'a/1',
    seconds: 1,
    finished: '',
    crc: checksumOf(outcome),
    outcome,
  };
  test('is taken as it was written, and not otherwise', () => {
    expect(answerProblem(answer, of)).toBeNull();
    const rows = (row: unknown) => {
      const other = { ok: true, value: { ok: true, rows: [row] } } as const;
      return { ...answer, outcome: other, crc: checksumOf(other) };
    };
    for (const [wrong, words] of [
      [{ ...answer, outcome: { ok: true, value: { ok: true, rows: [{ torque_nm: 99 }] } } }, /checksum/],
      [{ ...answer, program: 'echocone 2' }, /echocone 2/],
      [{ ...answer, arithmetic: 'other' }, /last digit/],
      [{ ...answer, draft: 'full 2' }, /another piece/],
      [rows({ ...{ speed_rpm: 1 }, script: 'x' }), /a row of it is none/],
      [rows({ torque_nm: { toString: 1 } }), /a row of it is none/],
      ['x', /no answer/],
    ] as const)
      expect(answerProblem(wrong, of)).toMatch(words);
  });
});
