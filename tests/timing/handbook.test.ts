/**
 * The handbook formulas against their worked examples: Jennings, Two-Stroke Tuner's Handbook (1973), and Blair, Design and
 * Simulation of Two-Stroke Engines (1996). Ring: published values, re-computed here.
 */
import { describe, expect, it } from 'vitest';
import { THREE_STAGE_RACING, TWO_STAGE_RACING, TWO_STAGE_ROAD } from '../../src/pipe/pipe-proportions.ts';
import {
  handbookGasTemperature,
  handbookPipe,
  handbookSections,
  handbookSoundSpeed,
  JENNINGS_WAVE_SPEED,
  jenningsPipe,
  returnAngle,
  tunedLength,
  tunedSpeed,
} from '../../src/timing/handbook.ts';
import { engine, pipe } from './saltmarsh.ts';

const INCH = 0.0254;

describe('tuned length', () => {
  it('is E·V/N in inches and 83.33·a·E/N in millimetres (Jennings 1973)', () => {
    expect(JENNINGS_WAVE_SPEED).toBeCloseTo(518.16, 10);
    const length = tunedLength(JENNINGS_WAVE_SPEED, 180, 6300);
    expect(length / INCH).toBeCloseTo((180 * 1700) / 6300, 10);
    expect(length / INCH).toBeCloseTo(48.571, 3);
    expect(length * 1000).toBeCloseTo(1233.71, 2);
    expect(tunedLength(600, 190, 11_000) * 1000).toBeCloseTo(((1000 / 12) * 600 * 190) / 11_000, 10);
    expect(tunedSpeed(length, JENNINGS_WAVE_SPEED, 180)).toBeCloseTo(6300, 9);
    // 1700 ft/s is the sound speed of air at 668 K.
    expect(handbookSoundSpeed(668)).toBeCloseTo(518.16, 0);
  });

  it.each([
    [8000, 138.18],
    [9000, 155.45],
    [10_000, 172.73],
    [11_000, 190.0],
    [12_000, 207.27],
    [13_000, 224.54],
  ])('brings the pulse back at %d rpm %d deg after exhaust opening (derived here)', (rpm, deg) => {
    // The length and sound speed of the row are printed to five figures.
    expect(Math.abs(returnAngle(0.85249, 592.26, rpm) - deg)).toBeLessThan(0.008);
  });

  it.each([
    [650, 609.0, 876.6],
    [600, 592.3, 852.5],
    [500, 557.3, 802.2],
    [350, 500.3, 720.2],
  ])(
    'at %d °C has a sound speed of %d m/s and, at 190° and 11 000 rpm, %d mm (Blair 1996)',
    (degC, a, mm) => {
      const speed = handbookSoundSpeed(degC + 273.15);
      expect(Math.abs(speed - a)).toBeLessThan(0.1);
      expect(Math.abs(tunedLength(speed, 190, 11_000) * 1000 - mm)).toBeLessThan(0.1);
    },
  );

  it('takes its temperature from the grades (Blair 1996)', () => {
    expect(handbookGasTemperature(3e5)).toBeCloseTo(623.15, 9);
    expect(handbookGasTemperature(5e5)).toBeCloseTo(623.15, 9);
    expect(handbookGasTemperature(8e5)).toBeCloseTo(773.15, 9);
    expect(handbookGasTemperature(8.75e5)).toBeCloseTo(823.15, 9);
    expect(handbookGasTemperature(12e5)).toBeCloseTo(923.15, 9);
  });
});

it('Jennings’s worked chamber comes out to the digits printed (1973)', () => {
  const worked = jenningsPipe(1.44 * INCH, 180, 6300);
  const inches = (metres: number) => metres / INCH;
  expect(inches(worked.bellyDiameter)).toBeCloseTo(3.6, 10);
  expect(inches(worked.stingerDiameter)).toBeCloseTo(0.893, 3);
  expect(inches(worked.headerLength)).toBeCloseTo(14.4, 10);
  expect(inches(worked.diffuserLength)).toBeCloseTo(15.44, 2);
  expect(inches(worked.baffleToPoint)).toBeCloseTo(10.21, 2);
  expect(inches(worked.tunedLength - worked.baffleToPoint / 2)).toBeCloseTo(43.47, 2);
  expect(inches(worked.bellyLength)).toBeCloseTo(13.62, 2);
  expect(inches(worked.baffleLength)).toBeCloseTo(7.68, 2);
  expect(inches(worked.stingerLength)).toBeCloseTo(10.71, 2);
});

describe('a pipe in handbook proportions', () => {
  const wish = { rpm: 11_000, durationDeg: 190, gasTemperature: 873.15, proportions: TWO_STAGE_RACING };

  it.each([TWO_STAGE_RACING, THREE_STAGE_RACING, TWO_STAGE_ROAD])(
    '$name: shares add up to the baffle’s end (Blair 1996), no jump in diameter',
    (proportions) => {
      const sections = handbookSections(engine, { ...wish, proportions });
      const toBaffleEnd = sections.filter((s) => s.role !== 'stinger').reduce((sum, s) => sum + s.length, 0);
      expect(toBaffleEnd + engine.passage.length).toBeCloseTo(0.8525, 3);
      for (const [i, part] of sections.entries()) {
        if (i > 0) expect(part.diameter[0]).toBe(sections[i - 1]?.diameter[1]);
        expect(part.length).toBeGreaterThan(0);
      }
      expect(sections.filter((s) => s.role === 'diffuser')).toHaveLength(proportions.diffusers.length);
      const belly = sections.find((s) => s.role === 'belly');
      const port = Math.sqrt((4 * engine.passage.exitArea) / Math.PI);
      expect((belly?.diameter[0] ?? 0) / port).toBeCloseTo(proportions.belly, 2);
    },
  );

  it('gives up the header when the passage is longer than its share', () => {
    const long = { ...engine, passage: { ...engine.passage, length: 0.12 } };
    const sections = handbookSections(long, wish);
    expect(sections[0]?.role).toBe('diffuser');
    const toBaffleEnd = sections.filter((s) => s.role !== 'stinger').reduce((sum, s) => sum + s.length, 0);
    expect(toBaffleEnd + 0.12).toBeCloseTo(0.8525, 3);
  });

  it('is a pipe', () => {
    const proposal = handbookPipe(engine, wish, pipe);
    expect(proposal.endCorrection).toBe(pipe.endCorrection);
    expect(proposal.name).toMatch(/two-stage racing, 11000 rpm/);
  });
});
