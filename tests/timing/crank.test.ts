/**
 * The slider-crank against a table of values derived here by independent evaluation (throw 27.25 mm, rod 120 mm), and
 * against itself there and back. Rings: exact solution, identity.
 */
import { describe, expect, it } from 'vitest';
import {
  crankAnglesAtTravel,
  crankOf,
  durationForTravel,
  meanPistonSpeed,
  pistonTravel,
  pistonVelocity,
  travelForDuration,
} from '../../src/timing/crank.ts';

const MM = 1e-3;
const straight = crankOf({ stroke: 54.5 * MM, rod: 120 * MM, pinOffset: 0 });
const offset = crankOf({ stroke: 54.5 * MM, rod: 120 * MM, pinOffset: 1 * MM });

describe('piston travel', () => {
  const degrees = [30, 60, 83, 85, 90, 100, 115, 120, 150, 180, 277];
  const withoutOffset = [
    4.42682, 15.96839, 27.01684, 27.98584, 30.38496, 35.02111, 41.33525, 43.21839, 51.6252, 54.5, 27.01684,
  ];
  const withOffset = [
    4.42349, 15.94709, 26.97524, 27.94257, 30.33781, 34.96769, 41.27759, 43.16097, 51.58688, 54.50183,
    27.06014,
  ];
  it.each(degrees.map((deg, i) => [deg, withoutOffset[i], withOffset[i]]))(
    'at %d deg is %d mm, and %d mm with the pin 1 mm off (derived here)',
    (deg, plain, shifted) => {
      expect(pistonTravel(straight, deg as number) / MM).toBeCloseTo(plain as number, 5);
      expect(pistonTravel(offset, deg as number) / MM).toBeCloseTo(shifted as number, 5);
    },
  );

  it('spans the true stroke with an offset (derived here)', () => {
    expect(offset.stroke / MM).toBeCloseTo(54.501995, 6);
    expect((offset.topTilt * 180) / Math.PI).toBeCloseTo(0.38911, 5);
    expect(offset.bottomDeg).toBeCloseTo(180.22865, 5);
    expect(pistonTravel(offset, offset.bottomDeg)).toBeCloseTo(offset.stroke, 15);
    expect(pistonTravel(offset, 0)).toBeCloseTo(0, 15);
  });
});

describe('speed', () => {
  const shaft = (12_000 * Math.PI) / 30;

  it('has the mean and the greatest speed at 12 000 rpm (derived here)', () => {
    expect(meanPistonSpeed(straight, 12_000)).toBeCloseTo(21.8, 12);
    expect(pistonVelocity(straight, 77.79) * shaft).toBeCloseTo(35.1173, 4);
  });

  it('is the slope of the travel, with the offset too', () => {
    const h = 1e-3;
    const radians = (2 * h * Math.PI) / 180;
    for (let deg = 5; deg < 360; deg += 31) {
      const slope = (pistonTravel(offset, deg + h) - pistonTravel(offset, deg - h)) / radians;
      expect(pistonVelocity(offset, deg)).toBeCloseTo(slope, 9);
    }
  });
});

describe('from travel back to crank angle', () => {
  it.each([
    [26, 80.90881, 198.1824],
    [28, 85.0293, 189.9414],
    [41, 114.14213, 131.7157],
  ])('%d mm is at %d deg and open %d deg (derived here)', (travel, down, duration) => {
    const angles = crankAnglesAtTravel(straight, travel * MM);
    expect(angles.downDeg).toBeCloseTo(down, 4);
    expect(angles.upDeg).toBeCloseTo(360 - down, 4);
    expect(durationForTravel(straight, travel * MM)).toBeCloseTo(duration, 4);
  });

  it.each([
    [130, 41.3352],
    [132, 40.9441],
    [180, 30.385],
    [190, 27.9858],
    [194, 27.0168],
    [196, 26.531],
    [200, 25.5573],
  ])('%d deg open wants the roof at %d mm (derived here)', (duration, travel) => {
    expect(travelForDuration(straight, duration) / MM).toBeCloseTo(travel, 4);
  });

  it.each([straight, offset, crankOf({ stroke: 0.05, rod: 0.09, pinOffset: -0.002 })])(
    'returns where it came from, right beside the dead centres too',
    (crank) => {
      for (const share of [0, 1e-9, 1e-4, 0.2, 0.5, 0.9, 1 - 1e-9, 1]) {
        const travel = share * crank.stroke;
        const { downDeg, upDeg } = crankAnglesAtTravel(crank, travel);
        expect(pistonTravel(crank, downDeg)).toBeCloseTo(travel, 15);
        expect(pistonTravel(crank, upDeg)).toBeCloseTo(travel, 15);
        expect(travelForDuration(crank, upDeg - downDeg)).toBeCloseTo(travel, 15);
      }
    },
  );

  it('opens and closes unequally about bottom dead centre with an offset', () => {
    const { downDeg, upDeg } = crankAnglesAtTravel(offset, pistonTravel(offset, 83));
    expect(downDeg).toBeCloseTo(83, 9);
    expect(upDeg).not.toBeCloseTo(277, 2);
  });

  it('refuses what cannot be', () => {
    expect(() => crankOf({ stroke: 0.06, rod: 0.03, pinOffset: 0.001 })).toThrow(/cannot turn/);
    expect(() => crankAnglesAtTravel(straight, 0.06)).toThrow(/not within the stroke/);
  });
});
