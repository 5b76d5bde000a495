/** Ring: identity. Cones cut to their least angle: what they lose goes where it is said to go, and the baffle keeps its middle. */

import { expect, test } from 'vitest';
import type { Section } from '../../src/model/section.ts';
import { includedAngleDeg } from '../../src/pipe/cone.ts';
import { baffleOf, lengthOf, placed, wholeCone } from '../../src/pipe/places.ts';
import { withSteeperCones } from '../../src/pipe/steeper-cones.ts';

const section = (
  name: string,
  role: Section['role'],
  length: number,
  left: number,
  right: number,
): Section => ({ name, role, length, diameter: [left, right], step: false });

const PASSAGE = 0.054;
const shallow = [
  section('header', 'header', 0.046, 0.026, 0.026),
  section('diffuser 1', 'diffuser', 0.411, 0.026, 0.048),
  section('diffuser 2', 'diffuser', 0.14, 0.048, 0.068),
  section('belly', 'belly', 0.11, 0.068, 0.068),
  section('baffle', 'baffle', 0.241, 0.068, 0.016),
  section('stinger', 'stinger', 0.241, 0.016, 0.016),
];
const angleOf = (sections: readonly Section[], role: Section['role']): number =>
  Math.abs(includedAngleDeg(wholeCone(placed(sections), role)!));
const withoutStinger = (sections: readonly Section[]): readonly Section[] => sections.slice(0, -1);

test('shallow cones are cut to 6 and 17 deg; the baffle keeps its middle, the header stops at nine diameters', () => {
  const cut = withSteeperCones(shallow, PASSAGE);
  expect(angleOf(cut, 'diffuser')).toBeCloseTo(6, 9);
  expect(angleOf(cut, 'baffle')).toBeCloseTo(17, 9);
  expect(baffleOf(placed(cut))!.middle).toBeCloseTo(baffleOf(placed(shallow))!.middle, 9);
  expect(PASSAGE + cut[0]!.length).toBeLessThanOrEqual(9 * 0.026 + 1e-9);
  const baffle = shallow[4]!.length - cut[4]!.length;
  expect(lengthOf(withoutStinger(cut))).toBeCloseTo(lengthOf(withoutStinger(shallow)) - baffle / 2, 9);
  // Stages keep their shares.
  expect(cut[1]!.length / cut[2]!.length).toBeCloseTo(0.411 / 0.14, 9);
  expect(cut[5]!.length).toBeCloseTo(12 * 0.016, 9);
});

test('cut once is cut enough', () => {
  const cut = withSteeperCones(shallow, PASSAGE);
  withSteeperCones(cut, PASSAGE).forEach((one, k) => {
    expect(one.length).toBeCloseTo(cut[k]!.length, 9);
  });
});

test('a pipe of steep cones is left alone; one without a header is given what the diffuser loses', () => {
  const steep = shallow.map((one) =>
    one.role === 'stinger' ? { ...one, length: 0.18 } : { ...one, length: one.length / 2 },
  );
  expect(withSteeperCones(steep, PASSAGE)).toEqual(steep);
  const bare = withSteeperCones(shallow.slice(1), PASSAGE);
  expect(bare[0]).toMatchObject({ role: 'header', diameter: [0.026, 0.026] });
  expect(bare[0]!.length).toBeGreaterThan(0.1);
});
