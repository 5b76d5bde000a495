/**
 * Ring: identity. Where the parts of an exhaust stand, by hand; and that every room which tells of the baffle tells of
 * the same place.
 */
import { describe, expect, it } from 'vitest';
import type { Section } from '../../src/model/section.ts';
import { areaOf, diameterOf } from '../../src/pipe/circle.ts';
import { coneLength, coneSheet, includedAngleDeg } from '../../src/pipe/cone.ts';
import { exhaustSections } from '../../src/pipe/exhaust.ts';
import {
  baffleOf,
  endCorrectionOf,
  lengthOf,
  placed,
  reflectorOf,
  sheetOf,
  wholeCone,
} from '../../src/pipe/places.ts';
import { bellyDiameter, tailDiameter, withBelly, withMouth, withTail } from '../../src/pipe/shape.ts';
import { pipeReadings } from '../../src/study/overnight/quantities.ts';
import { constraintList } from '../../src/study/work/constraints.ts';
import { outlineOf } from '../../src/study/work/run-sweep.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import { pipe, saltmarsh } from '../timing/saltmarsh.ts';

const part = (role: Section['role'], length: number, left: number, right: number): Section => ({
  name: role,
  role,
  length,
  diameter: [left, right],
  step: false,
});
/** Header 0.2, diffuser 0.3, baffle in stages of 0.1 and 0.2 with 0.05 between them, stinger 0.3 [m]. */
const sections = [
  part('header', 0.2, 0.04, 0.04),
  part('diffuser', 0.3, 0.04, 0.1),
  part('baffle', 0.1, 0.1, 0.08),
  part('belly', 0.05, 0.08, 0.08),
  part('baffle', 0.2, 0.08, 0.02),
  part('stinger', 0.3, 0.02, 0.02),
];

describe('places', () => {
  it('follow each other without a gap', () => {
    const rows = placed(sections);
    expect(rows[0]?.start).toBe(0);
    rows.slice(1).forEach((row, k) => {
      expect(row.start).toBe(rows[k]?.end);
    });
    expect(rows.at(-1)?.end).toBeCloseTo(1.15, 12);
    expect(lengthOf(sections, 0.1)).toBeCloseTo(1.25, 12);
  });

  it('of a baffle in stages go from the first to the last', () => {
    const baffle = baffleOf(placed(sections));
    expect(baffle?.start).toBeCloseTo(0.5, 12);
    expect(baffle?.middle).toBeCloseTo(0.675, 12);
    expect(baffle?.end).toBeCloseTo(0.85, 12);
    const cone = wholeCone(placed(sections), 'baffle');
    expect(cone?.stages).toHaveLength(2);
    expect(cone?.length).toBeCloseTo(0.35, 12);
    expect(cone?.diameter).toEqual([0.1, 0.02]);
  });

  it('of a pipe without one are its open end', () => {
    const plain = placed(sections.filter(({ role }) => role !== 'baffle'));
    expect(baffleOf(plain)).toBeNull();
    const { end } = plain.at(-1) as { readonly end: number };
    expect(reflectorOf(plain)).toEqual({ start: end, middle: end, end });
    expect(wholeCone(plain, 'baffle')).toBeNull();
  });

  it('of the baffle are one and the same for check, sweep, overnight and its constraints', () => {
    const end = baffleOf(exhaustSections(saltmarsh))?.end as number;
    expect(checkReport(saltmarsh).lengths.baffleEnd).toBe(end);
    expect(baffleOf(outlineOf(saltmarsh))?.end).toBe(end);
    const shown = pipeReadings.find(({ name }) => name === 'length to baffle end');
    expect(shown?.read(saltmarsh)).toBeCloseTo(1000 * end, 3);
    const free = {
      lengthToBaffleEnd: { atLeast: null, atMost: end },
      largestDiameter: null,
      diffuserAngle: null,
      baffleAngle: null,
      sheetArea: null,
      sameSheet: null,
      passageFixed: false,
    };
    expect(constraintList(free, saltmarsh)[0]?.miss(saltmarsh)).toBe(0);
  });
});

describe('an open end', () => {
  it('lengthens the pipe by radii of its own bore, but not in front of a silencer', () => {
    const open = { ...pipe, sections, endCorrection: 0.6, silencer: null };
    expect(endCorrectionOf(open)).toBeCloseTo(0.006, 15);
    const silencer = { volume: 1e-3, outletDiameter: 0.03, discharge: 0.8 };
    expect(endCorrectionOf({ ...open, silencer })).toBe(0);
  });
});

describe('round bores and cones', () => {
  it('go from diameter to area and back', () => {
    expect(areaOf(2)).toBeCloseTo(Math.PI, 12);
    expect(diameterOf(areaOf(0.0413))).toBeCloseTo(0.0413, 15);
  });

  it('take the sheet of a cylinder, a cone and a disc (plane geometry)', () => {
    expect(coneSheet({ length: 3, diameter: [2, 2] })).toBeCloseTo(6 * Math.PI, 12);
    // Slant 5 on a base of radius 3.
    expect(coneSheet({ length: 4, diameter: [0, 6] })).toBeCloseTo(15 * Math.PI, 12);
    expect(sheetOf([part('belly', 3, 2, 2), part('baffle', 4, 6, 0)])).toBeCloseTo(21 * Math.PI, 12);
  });

  it('have the length that gives an angle', () => {
    const length = coneLength([0.04, 0.1], 8);
    expect(includedAngleDeg({ length, diameter: [0.04, 0.1] })).toBeCloseTo(8, 12);
  });
});

describe('changes of shape', () => {
  const drawn = { ...pipe, sections };
  const joints = ({ sections: all }: { readonly sections: readonly Section[] }) =>
    all.slice(1).map((one, k) => one.diameter[0] - (all[k] as Section).diameter[1]);

  it('keep the pipe joined and reach what was asked for', () => {
    const wider = withBelly(drawn, 0.12);
    expect(bellyDiameter(wider)).toBeCloseTo(0.12, 12);
    expect(tailDiameter(wider)).toBe(0.02);
    for (const gap of joints(wider)) expect(Math.abs(gap)).toBeLessThan(1e-12);
    const opened = withTail(drawn, 0.025);
    expect(tailDiameter(opened)).toBeCloseTo(0.025, 12);
    expect(bellyDiameter(opened)).toBe(0.1);
    for (const gap of joints(opened)) expect(Math.abs(gap)).toBeLessThan(1e-12);
  });

  it('give the flange another bore and leave the rest', () => {
    const other = withMouth(drawn, 0.041);
    expect(other.sections[0]?.diameter).toEqual([0.041, 0.04]);
    expect(other.sections.slice(1)).toEqual(sections.slice(1));
  });
});
