/**
 * Specific time-areas against worked rows derived here (throw 27.25 mm, rod 120 mm, rectangular windows open to bottom
 * dead centre), an independent sum, and the handbook's own figure. Rings: exact solution, identity.
 */
import { describe, expect, it } from 'vitest';
import type { Engine } from '../../src/model/engine.ts';
import { crankOf, pistonTravel } from '../../src/timing/crank.ts';
import { engineEvents } from '../../src/timing/events.ts';
import { handbookTimeAreas } from '../../src/timing/handbook-time-areas.ts';
import {
  angleArea,
  bmepServed,
  midAngleArea,
  portArea,
  portStreamArea,
  timeAreas,
  timeAreasWanted,
} from '../../src/timing/time-area.ts';
import { sweptVolume, volumesOf } from '../../src/timing/volume.ts';
import { outlineArea } from '../../src/timing/window.ts';
import { engine, exhaustWindow, transferWindow } from './saltmarsh.ts';

const MM = 1e-3;
const square = { widthMeasure: 'arc', cornerTop: 0, cornerBottom: 0, roofArch: 0, upAngleDeg: 0 } as const;
const worked = {
  ...engine,
  rod: 120 * MM,
  exhaust: { ...engine.exhaust, windows: [{ ...exhaustWindow, ...square, width: 40 * MM }] },
  transfers: {
    ...engine.transfers,
    windows: [{ ...transferWindow, ...square, count: 4, width: 20 * MM }],
  },
};
const events = engineEvents(worked);
const displacement = sweptVolume(volumesOf(worked));

describe('specific time-areas', () => {
  it('are those of the worked rows at 12 000 rpm, and half as much again at 8 000 (derived here)', () => {
    const fast = timeAreas(events, displacement, 12_000);
    expect(fast.exhaust).toBeCloseTo(0.0154424, 7);
    expect(fast.blowdown).toBeCloseTo(0.00105697, 8);
    expect(fast.transfer).toBeCloseTo(0.010087, 7);
    const slow = timeAreas(events, displacement, 8000);
    expect(slow.exhaust / fast.exhaust).toBeCloseTo(1.5, 12);
    expect(slow.blowdown / fast.blowdown).toBeCloseTo(1.5, 12);
  });

  it("give the handbook's figure, which over-reads by 12 % (Jennings 1973; derived here)", () => {
    expect(midAngleArea(events.crank, events.exhaust) * 1e6).toBeCloseTo(801.5, 1);
    const { exhaust, exhaustHandbook } = timeAreas(events, displacement, 12_000);
    expect(exhaustHandbook).toBeCloseTo(0.0173, 5);
    expect(exhaustHandbook / exhaust).toBeCloseTo(1.12, 2);
  });

  it('have the mid angle about 70 % down the exhaust and 75 % down the transfer (Jennings 1973)', () => {
    const share = (port: typeof events.exhaust) => {
      const shape = port.windows[0]?.shape;
      if (shape === undefined) throw new Error('no window');
      return midAngleArea(events.crank, port) / (shape.count * outlineArea(shape, 1));
    };
    expect(share(events.exhaust)).toBeCloseTo(0.729, 3);
    expect(share(events.transfers)).toBeCloseTo(0.744, 3);
  });

  it('agree with a plain sum for windows with arches, corners, chamfers and an offset pin', () => {
    const crank = crankOf({ ...engine, pinOffset: 1 * MM });
    const windows = [
      { ...exhaustWindow, chamferHeight: 0.8 * MM, chamferDepth: 0.5 * MM },
      {
        ...exhaustWindow,
        count: 2,
        width: 12 * MM,
        height: 14 * MM,
        roofArch: 1 * MM,
        cornerTop: 6 * MM,
        cornerBottom: 3 * MM,
      },
    ];
    const { exhaust } = engineEvents({
      ...engine,
      pinOffset: 1 * MM,
      exhaust: { ...engine.exhaust, windows },
    });
    const steps = 200_000;
    const step = exhaust.durationDeg / steps;
    let sum = 0;
    for (let i = 0; i < steps; i++)
      sum += step * portArea(crank, exhaust, exhaust.opensDeg + (i + 0.5) * step);
    const exact = angleArea(crank, exhaust, exhaust.opensDeg, exhaust.closesDeg);
    // Where a slit hands over to a rounded window the kink's angle is not known in closed form: 2e-8 is left.
    expect(Math.abs(exact / sum - 1)).toBeLessThan(1e-7);
  });

  it('see no blowdown where the transfers open first', () => {
    const late = {
      ...worked,
      exhaust: {
        ...worked.exhaust,
        windows: [
          {
            ...(worked.exhaust.windows[0] ?? exhaustWindow),
            roof: { by: 'duration', durationDeg: 120 } as const,
          },
        ],
      },
    };
    expect(timeAreas(engineEvents(late), displacement, 12_000).blowdown).toBe(0);
  });
});

describe('what a mean effective pressure wants', () => {
  it('is Blair’s fits at 11 bar (1996, value from memory), there and back', () => {
    const wanted = timeAreasWanted(11e5);
    expect(wanted.blowdown).toBeCloseTo(0.001123, 6);
    expect(wanted.transfer).toBeCloseTo(0.01205, 5);
    expect(wanted.inlet).toBeCloseTo(0.01619, 5);
    expect(bmepServed(wanted).blowdown).toBeCloseTo(11e5, 5);
    expect(bmepServed(wanted).transfer).toBeCloseTo(11e5, 5);
  });
});

it('a stream sees the chord of a window, at its angle', () => {
  const windows = [{ ...exhaustWindow, ...square, widthMeasure: 'chord', upAngleDeg: -25 } as const];
  const tilted = engineEvents({ ...engine, exhaust: { ...engine.exhaust, windows } });
  const ratio =
    portStreamArea(tilted.crank, tilted.exhaust, 150) / portArea(tilted.crank, tilted.exhaust, 150);
  const narrowing = 37.5 / (54 * Math.asin(37.5 / 54));
  expect(ratio).toBeCloseTo(narrowing * Math.cos((25 * Math.PI) / 180), 12);
});

describe('the handbook’s own figure against its ranges', () => {
  const figures = (one: Engine) => {
    const { crank, ...ports } = engineEvents(one);
    const areas = timeAreas({ crank, ...ports }, displacement, 12_000);
    return handbookTimeAreas(one, crank, displacement, areas);
  };

  it('is that of the time-areas, with Jennings’s ranges of 1e-4 s/cm (1973, as quoted)', () => {
    const [exhaust, transfer, ...more] = figures(worked);
    // 1.730e-4 s/cm for a rectangular exhaust of 40 mm and 194 deg (derived here).
    expect(exhaust?.found).toBeCloseTo(0.0173, 4);
    expect(exhaust?.usual).toEqual([0.014, 0.015]);
    expect(transfer?.usual).toEqual([0.008, 0.01]);
    expect(more).toEqual([]);
  });

  it('of a piston-port is its time by its area at mid angle', () => {
    const intake = {
      kind: 'piston-port',
      tract: [],
      durationDeg: 160,
      width: 36 * MM,
      height: 40 * MM,
      cornerRadius: 0,
      discharge: 1,
    } as const;
    const [, , found] = figures({ ...worked, intake });
    const { crank } = engineEvents(worked);
    // Open from 80 deg before top dead centre on; at 40 deg before it the skirt stands s(80) - s(40) above the floor.
    const height = pistonTravel(crank, 80) - pistonTravel(crank, 40);
    // As wide along the bore as an arc over a chord of 36 mm.
    const width = 54 * MM * Math.asin(36 / 54);
    expect(found?.found).toBeCloseTo((160 * width * height) / (6 * 12_000 * displacement), 5);
    expect(found?.usual).toEqual([0.014, 0.016]);
  });

  it('of a disc is its time by the port’s area', () => {
    const intake = {
      kind: 'disc',
      tract: [],
      opensDeg: -140,
      closesDeg: 65,
      area: 8e-4,
      rampDeg: 20,
    } as const;
    const [, , found] = figures({ ...worked, intake: { ...intake, discharge: 1 } });
    expect(found?.found).toBeCloseTo((205 * 8e-4) / (6 * 12_000 * displacement), 9);
    expect(found?.source).toContain('from memory');
  });
});
