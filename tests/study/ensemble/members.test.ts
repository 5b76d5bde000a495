/** Members: the same for any number, even input by input, together where stated; and their file. Ring: identity. */

import { describe, expect, test } from 'vitest';
import { openFile } from '../../../src/case/load.ts';
import { FileProblem } from '../../../src/case/text/problem.ts';
import { cholesky, correlations, timesInverse } from '../../../src/study/ensemble/correlations.ts';
import {
  drawMembers,
  drawTogether,
  joinedMembers,
  membersFor,
  overridesOf,
} from '../../../src/study/ensemble/members.ts';
import { membersCsv, readMembers } from '../../../src/study/ensemble/members-file.ts';
import { blockOf, memberScores } from '../../../src/study/ensemble/scores.ts';
import { uncertainInputs } from '../../../src/study/ensemble/uncertain-inputs.ts';
import { normalShare } from '../../../src/study/search/normal.ts';
import { CASES, file } from '../../case/files.ts';

const draft = (name: string) => openFile(`${CASES}saltmarsh-125/${name}.yaml`);
const inputs = uncertainInputs(draft('draft-a'), []);
const scores = memberScores(inputs, 64);

describe('scores', () => {
  test('the first members are the same however many are drawn', () => {
    expect(memberScores(inputs, 200).slice(0, 64)).toEqual(scores);
    expect(memberScores(inputs, 10)).toEqual(scores.slice(0, 10));
  });

  test('each input has one member in each of 64 equal shares', () => {
    for (const [k] of inputs.entries()) {
      const parts = scores.map((row) => Math.floor(64 * normalShare(row[k]!)));
      expect(new Set(parts).size).toBe(64);
    }
  });

  test('inputs go together as stated, and not otherwise', () => {
    const found = correlations(scores);
    for (const [i, a] of inputs.entries())
      for (const [j, b] of inputs.slice(0, i).entries()) {
        const wanted =
          a.together !== null && a.together.group === b.together?.group ? a.together.correlation : 0;
        // Putting scores in ranks misses by some hundredths; random ones of 64 members would by 0.12, a standard deviation.
        expect(Math.abs(found[i]![j]! - wanted), `${a.path} ${b.path}`).toBeLessThan(0.15);
      }
  });

  test('more inputs than the sequence has dimensions', () => {
    const many = Array.from({ length: 140 }, (_, k) => ({ path: `p.${k}`, together: null }));
    expect(blockOf(140)).toBe(256);
    const rows = memberScores(many, 8);
    expect(rows.flat().every(Number.isFinite)).toBe(true);
    expect(memberScores(many, 300).slice(0, 8)).toEqual(rows);
  });

  test('the factor of a matrix of correlations, and the way from one to another', () => {
    const R = [
      [1, 0.6],
      [0.6, 1],
    ];
    expect(cholesky(R)).toEqual([[1], [0.6, expect.closeTo(0.8, 12)]]);
    expect(timesInverse([[3, 4]], cholesky(R), cholesky(R))[0]).toEqual([3, expect.closeTo(4, 12)]);
    expect(() =>
      cholesky([
        [1, 1.2],
        [1.2, 1],
      ]),
    ).toThrow(RangeError);
  });
});

describe('members of several drafts', () => {
  test('share what is not of one pipe alone', () => {
    const sets = ['pipe.sections.header.length=210 mm ± 2 mm'];
    const ofDraft = (name: string) => ({
      inputs: uncertainInputs(draft(name), sets),
      pipe: name,
    });
    const [a, b] = drawTogether([ofDraft('draft-a'), ofDraft('draft-b')], 8);
    const column = (members: typeof a, path: string) => {
      const k = members!.paths.findIndex((one) => one.path === path);
      return members!.values.map((row) => row[k]);
    };
    for (const path of ['engine.ambient.temperature', 'pipe.wall.given.flange', 'pipe.roughness'])
      expect(column(a, path)).toEqual(column(b, path));
    // Two pipes are measured twice, one pipe once.
    const header = 'pipe.sections.header.length';
    expect(column(a, header)).not.toEqual(column(b, header));
    const [c, d] = drawTogether([ofDraft('draft-a'), ofDraft('draft-a')], 8);
    expect(column(c, header)).toEqual(column(d, header));
    const joined = joinedMembers([{ members: a! }, { members: b! }]);
    expect(joined.paths.filter(({ path }) => path === header)).toHaveLength(1);
    expect(joined.values).toHaveLength(8);
  });
});

describe('the file', () => {
  const members = drawMembers(inputs, 8);

  test('leads there and back', () => {
    const read = readMembers(file('members.csv', membersCsv(members)));
    expect(read).toEqual(members);
    expect(overridesOf(read, 3)).toEqual(overridesOf(members, 3));
  });

  test('an empty cell leaves the input alone; a path that a case lacks is left out', () => {
    const read = readMembers(
      file(
        'm.csv',
        '\uFEFFmember,engine.fuel.equivalenceRatio,engine.ambient.temperature [degC]\r\n1,,12.5\r\n2,1.05,\r\n',
      ),
    );
    expect(overridesOf(read, 0)).toEqual(['engine.ambient.temperature=12.5 degC']);
    expect(overridesOf(read, 1)).toEqual(['engine.fuel.equivalenceRatio=1.05']);
    expect(membersFor(read, (path) => path.startsWith('engine.fuel'))).toEqual({
      paths: [{ path: 'engine.fuel.equivalenceRatio', unit: '' }],
      values: [[null], [1.05]],
    });
  });

  test.each([
    ['speed,torque\n1,2\n', ':1: a list of members begins with'],
    ['member,bore\n1,2\n', ':1: "bore" is no path'],
    ['member,a.b,a.b\n1,2,3\n', ':1: a path stands twice'],
    ['member,a.b\n1,2,3\n', ':2: has 3 cells'],
    ['member,a.b\n1,2\n2,two\n', ':3: "two" is no number'],
    ['member,a.b\n', ':1: there is no member'],
  ])('%j is refused with its line', (text, message) => {
    const path = file('bad.csv', text);
    expect(() => readMembers(path)).toThrow(FileProblem);
    expect(() => readMembers(path)).toThrow(message);
  });
});
