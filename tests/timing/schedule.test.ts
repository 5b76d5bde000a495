/**
 * Port events, volumes, heat release and the tables handed to the solver, against closed forms and the exact functions
 * they were made from. Rings: exact solution, identity.
 */
import { describe, expect, it } from 'vitest';
import { crankOf, pistonTravel } from '../../src/timing/crank.ts';
import { engineEvents } from '../../src/timing/events.ts';
import { intakeTable, portSchedule, portTable, samplePort } from '../../src/timing/schedule.ts';
import { streamArea } from '../../src/timing/stream-area.ts';
import {
  compressionRatios,
  crankcaseCompression,
  crankcaseVolume,
  cylinderVolume,
  cylinderVolumeRate,
  cylinderWall,
  sweptVolume,
  volumesOf,
} from '../../src/timing/volume.ts';
import { burntShare } from '../../src/timing/wiebe.ts';
import { windowArea } from '../../src/timing/window.ts';
import { engine, exhaustWindow } from './saltmarsh.ts';

const MM = 1e-3;

describe('port events', () => {
  it('come out as they went in, by duration, by opening and by travel', () => {
    const events = engineEvents(engine);
    expect(events.exhaust.durationDeg).toBeCloseTo(194, 9);
    expect(events.exhaust.opensDeg).toBeCloseTo(83, 9);
    expect(events.exhaust.closesDeg).toBeCloseTo(277, 9);
    expect(events.transfers.durationDeg).toBeCloseTo(130, 9);
    const byOpening = { ...exhaustWindow, roof: { by: 'opening', openingDeg: 83 } } as const;
    const roof = events.exhaust.windows[0]?.shape.roof as number;
    const byTravel = { ...exhaustWindow, roof: { by: 'travel', travel: roof } } as const;
    for (const window of [byOpening, byTravel]) {
      const again = engineEvents({ ...engine, exhaust: { ...engine.exhaust, windows: [window] } });
      expect(again.exhaust.opensDeg).toBeCloseTo(83, 9);
    }
  });

  it('a chamfer opens earlier than its edge; the earliest window counts', () => {
    const chamfered = { ...exhaustWindow, chamferHeight: 1 * MM, chamferDepth: 0.5 * MM };
    const low = { ...exhaustWindow, roof: { by: 'duration', durationDeg: 180 } } as const;
    const windows = [low, chamfered];
    const { exhaust, crank } = engineEvents({ ...engine, exhaust: { ...engine.exhaust, windows } });
    const second = exhaust.windows[1];
    expect(second?.edgeOpensDeg).toBeCloseTo(83, 9);
    expect(exhaust.opensDeg).toBe(second?.opensDeg);
    expect(pistonTravel(crank, exhaust.opensDeg)).toBeCloseTo(pistonTravel(crank, 83) - 1 * MM, 14);
  });
});

describe('volumes', () => {
  const volumes = volumesOf({ ...engine, rod: 120 * MM });

  it('displaces πB²S/4 (derived here: 124.817 cm³)', () => {
    expect(sweptVolume(volumes) * 1e6).toBeCloseTo(124.817, 3);
    expect(crankcaseCompression({ ...volumes, crankcaseSmallest: 312.04e-6 })).toBeCloseTo(1.4, 4);
  });

  it('keeps the compression ratio by either basis', () => {
    expect(cylinderVolume(volumes, 180) / cylinderVolume(volumes, 0)).toBeCloseTo(14.5, 10);
    const trapped = volumesOf({ ...engine, compression: { ratio: 8, basis: 'trapped' } });
    expect(cylinderVolume(trapped, 277) / cylinderVolume(trapped, 0)).toBeCloseTo(8, 10);
    expect(compressionRatios(engine).full).toBeCloseTo(14.5, 10);
    expect(compressionRatios(engine).trapped).toBeLessThan(14.5 * 0.6);
  });

  it('gives the crankcase what it takes from the cylinder', () => {
    for (const deg of [0, 40, 133, 180, 290]) {
      const sum = cylinderVolume(volumes, deg) + crankcaseVolume(volumes, deg);
      expect(sum).toBeCloseTo(cylinderVolume(volumes, 180) + engine.crankcase.volume, 15);
      const slope = (cylinderVolume(volumes, deg + 0.01) - cylinderVolume(volumes, deg - 0.01)) / 0.02;
      expect(cylinderVolumeRate(volumes, deg)).toBeCloseTo(slope, 11);
    }
  });

  it('has crown, head and liner around the gas', () => {
    const liner = cylinderVolume(volumes, 180) / volumes.pistonArea;
    const cylinder = (Math.PI / 2) * 0.054 ** 2 + Math.PI * 0.054 * liner;
    expect(cylinderWall(volumes, cylinderVolume(volumes, 180))).toBeCloseTo(cylinder, 14);
  });
});

describe('heat release', () => {
  it('follows Wiebe with a = 5, m = 2 (Heywood 1988, value from memory)', () => {
    expect(burntShare(0.25, 5, 2)).toBeCloseTo(0.07515, 5);
    expect(burntShare(0.5, 5, 2)).toBeCloseTo(0.46474, 5);
    expect(burntShare(0.75, 5, 2)).toBeCloseTo(0.87869, 5);
    expect(burntShare(1, 5, 2)).toBeCloseTo(0.99326, 5);
    expect(burntShare(1, 6.908, 2)).toBeCloseTo(0.999, 6);
    expect([0.2762, 0.5175, 0.7722].map((z) => burntShare(z, 5, 2).toFixed(3))).toEqual([
      '0.100',
      '0.500',
      '0.900',
    ]);
  });
});

describe('tables for the solver', () => {
  const schedule = portSchedule(engine);
  const { crank, exhaust } = schedule.events;

  it('give the exact area within 0.02 mm² of 1 000, in any turn', () => {
    const shape = exhaust.windows[0]?.shape;
    if (shape === undefined) throw new Error('no window');
    let worst = 0;
    for (let deg = 83.013; deg < 277; deg += 0.137) {
      const exact = windowArea(shape, pistonTravel(crank, deg));
      worst = Math.max(worst, Math.abs(samplePort(schedule.exhaustWall, deg + 720) - exact));
    }
    expect(worst).toBeLessThan(2e-8);
    for (const deg of [0, 83, 277, 300, -280, 359.9]) {
      expect(samplePort(schedule.exhaustWall, deg)).toBeCloseTo(0, 16);
    }
    expect(samplePort(schedule.exhaustWall, -180)).toBeCloseTo(schedule.exhaustWall.full, 12);
  });

  it('see the stream at its angle', () => {
    const shape = exhaust.windows[0]?.shape;
    if (shape === undefined) throw new Error('no window');
    const exact = streamArea(shape, pistonTravel(crank, 150));
    expect(Math.abs(samplePort(schedule.exhaustStream, 150) - exact)).toBeLessThan(2e-8);
    expect(exact).toBeLessThan(samplePort(schedule.exhaustWall, 150));
    expect(samplePort(schedule.transferStream, 150)).toBeLessThan(samplePort(schedule.transferWall, 150));
  });

  it('hold a disc valve that opens before top dead centre', () => {
    const disc = {
      kind: 'disc',
      tract: [],
      opensDeg: 220,
      closesDeg: 80,
      area: 8e-4,
      rampDeg: 40,
      discharge: 0.8,
    } as const;
    const table = intakeTable(crank, engine.bore, disc);
    if (table === null) throw new Error('a disc is no reed');
    expect(samplePort(table, 240)).toBeCloseTo(4e-4, 9);
    expect(samplePort(table, 0)).toBeCloseTo(8e-4, 15);
    expect(samplePort(table, 70)).toBeCloseTo(2e-4, 9);
    expect(samplePort(table, 150)).toBe(0);
    const early = intakeTable(crank, engine.bore, { ...disc, opensDeg: -140 });
    expect(early && samplePort(early, 240)).toBeCloseTo(4e-4, 9);
  });

  it('hold a piston-ported window, from the skirt up', () => {
    const offset = crankOf({ stroke: 54.5 * MM, rod: 110 * MM, pinOffset: 1 * MM });
    const table = intakeTable(offset, engine.bore, {
      kind: 'piston-port',
      tract: [],
      durationDeg: 160,
      width: 30 * MM,
      height: 20 * MM,
      cornerRadius: 0,
      discharge: 0.8,
    });
    if (table === null) throw new Error('a piston port is no reed');
    expect(table.closesDeg - table.opensDeg).toBeCloseTo(160, 9);
    const arc = 54 * Math.asin(30 / 54);
    expect(samplePort(table, 0) * 1e6).toBeCloseTo(20 * arc, 2);
    const opening = pistonTravel(offset, table.closesDeg);
    const exposed = opening - pistonTravel(offset, 60);
    expect(samplePort(table, 60)).toBeCloseTo(exposed * arc * MM, 8);
    expect(samplePort(table, 100)).toBe(0);
  });

  it('read the same wherever the turn is counted from, and refuse nonsense', () => {
    const table = portTable(300, 420, (deg) => deg - 300);
    expect(samplePort(table, 0)).toBeCloseTo(60, 9);
    expect(samplePort(table, 360)).toBeCloseTo(60, 9);
    expect(() => portTable(10, 10, () => 1)).toThrow(/open for/);
    expect(intakeTable(crank, engine.bore, engine.intake)).toBeNull();
  });
});
