/** Ring: identity. An exhaust of another duration is the same barrel with its roofs cut higher or lower. */

import { describe, expect, test } from 'vitest';
import type { Case } from '../../../src/model/case.ts';
import type { PortWindow } from '../../../src/model/port-window.ts';
import { exhaustDuration, withExhaustDuration } from '../../../src/study/map/exhaust-duration.ts';
import { crankOf } from '../../../src/timing/crank.ts';
import { engineEvents } from '../../../src/timing/events.ts';
import { compressionRatios, volumesOf } from '../../../src/timing/volume.ts';
import { roofTravel, windowShape } from '../../../src/timing/window.ts';
import { saltmarsh } from '../../timing/saltmarsh.ts';

const main = saltmarsh.engine.exhaust.windows[0] as PortWindow;

/** A main window and a lower one beside it, its roof by its opening, its floor raised. */
const subject: Case = {
  ...saltmarsh,
  engine: {
    ...saltmarsh.engine,
    compression: { ratio: 7.4, basis: 'trapped' },
    exhaust: {
      ...saltmarsh.engine.exhaust,
      windows: [
        {
          ...main,
          name: 'side',
          count: 2,
          width: 8e-3,
          roof: { by: 'opening', openingDeg: 88 },
          height: 12e-3,
          cornerTop: 2e-3,
          cornerBottom: 2e-3,
          roofArch: 0,
          chamferHeight: 0,
          chamferDepth: 0,
        },
        { ...main, roof: { by: 'duration', durationDeg: 195 }, height: null },
      ],
    },
  },
};
const crank = crankOf(subject.engine);
const shapes = (one: Case) =>
  one.engine.exhaust.windows.map((window) => windowShape(crank, one.engine.bore, window));

describe('another exhaust duration', () => {
  test('is that of the window that opens first, wherever it stands in the list', () => {
    expect(exhaustDuration(subject.engine)).toBeCloseTo(195, 9);
  });

  test.each([181, 195, 203.5])('%s deg: the event is there to round-off', (deg) => {
    const moved = withExhaustDuration(subject, deg);
    expect(exhaustDuration(moved.engine)).toBeCloseTo(deg, 9);
    const { windows } = engineEvents(moved.engine).exhaust;
    expect(Math.max(...windows.map((w) => w.edgeDurationDeg))).toBeCloseTo(deg, 9);
    // Without pin offset both events move by half of it.
    expect(windows[1]?.edgeOpensDeg).toBeCloseTo(180 - deg / 2, 9);
  });

  test('the charge has to have burnt before the exhaust opens', () => {
    const late: Case = {
      ...subject,
      engine: { ...subject.engine, combustion: { ...subject.engine.combustion, durationDeg: 90 } },
    };
    expect(() => withExhaustDuration(late, 203)).not.toThrow();
    expect(() => withExhaustDuration(late, 207)).toThrow(/would still burn/);
  });

  test('all roofs move by the same height, floors stay', () => {
    const [sideBefore, mainBefore] = shapes(subject);
    const [sideAfter, mainAfter] = shapes(withExhaustDuration(subject, 203));
    const up = (mainBefore?.roof ?? 0) - (mainAfter?.roof ?? 0);
    expect(up).toBeGreaterThan(1e-3);
    expect((sideBefore?.roof ?? 0) - (sideAfter?.roof ?? 0)).toBeCloseTo(up, 12);
    expect(sideAfter?.floor).toBeCloseTo(sideBefore?.floor ?? 0, 12);
    expect(mainAfter?.floor).toBeCloseTo(crank.stroke, 12);
    // Roof of the side window by its opening at 88 deg: it opened later and still does.
    expect((sideAfter?.roof ?? 0) - (mainAfter?.roof ?? 0)).toBeCloseTo(
      (sideBefore?.roof ?? 0) - (mainBefore?.roof ?? 0),
      12,
    );
  });

  test('the head stays: clearance kept, compression from exhaust closing falls as the roof rises', () => {
    const before = volumesOf(subject.engine).clearance;
    for (const deg of [182, 195, 204]) {
      const { engine } = withExhaustDuration(subject, deg);
      expect(volumesOf(engine).clearance / before).toBeCloseTo(1, 12);
      // Trapped ratio from the roof's travel, written out: 1 + A s / Vc.
      const { trapped } = compressionRatios(engine);
      const roof = Math.min(...engine.exhaust.windows.map((w) => roofTravel(crank, w)));
      const area = (Math.PI / 4) * engine.bore ** 2;
      const chamfer = main.chamferDepth > 0 ? main.chamferHeight : 0;
      expect(trapped).toBeCloseTo(1 + (area * (roof - chamfer)) / before, 9);
    }
    expect(compressionRatios(withExhaustDuration(subject, 195).engine).trapped).toBeCloseTo(7.4, 9);
  });

  test('its own duration leaves the geometry as it is', () => {
    const same = shapes(withExhaustDuration(subject, exhaustDuration(subject.engine)));
    shapes(subject).forEach((shape, k) => {
      expect(same[k]?.roof).toBeCloseTo(shape.roof, 14);
      expect(same[k]?.floor).toBeCloseTo(shape.floor, 14);
    });
    expect(withExhaustDuration(subject, 200).engine.transfers).toEqual(subject.engine.transfers);
    expect(withExhaustDuration(subject, 200).pipe).toEqual(subject.pipe);
  });

  test('what cannot be cut is refused with its reason', () => {
    expect(() => withExhaustDuration(subject, 120)).toThrow(RangeError);
    expect(() => withExhaustDuration(subject, 128)).toThrow(
      /transfers would open|nothing would be left|height/,
    );
    expect(() => withExhaustDuration(subject, 361)).toThrow(RangeError);
    const chamfered: Case = {
      ...subject,
      engine: {
        ...subject.engine,
        exhaust: {
          ...subject.engine.exhaust,
          windows: [
            { ...main, chamferDepth: 1e-3, chamferHeight: 30e-3, roof: { by: 'travel', travel: 31e-3 } },
          ],
        },
      },
    };
    expect(() => withExhaustDuration(chamfered, 200)).toThrow(/never cover/);
  });
});
