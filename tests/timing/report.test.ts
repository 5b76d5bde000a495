/**
 * The check report: its numbers agree with each other and with what they are computed from, pipe geometry with closed
 * forms, and its text fits two screens of 80 columns whatever names a case carries. Rings: identity, exact solution.
 */
import { describe, expect, it } from 'vitest';
import { renderCheck } from '../../src/commands/check.ts';
import { coneVolume, includedAngleDeg } from '../../src/pipe/cone.ts';
import { sectionRows } from '../../src/pipe/pipe-table.ts';
import { diameterAt } from '../../src/pipe/places.ts';
import { engineEvents } from '../../src/timing/events.ts';
import { handbookSoundSpeed, tunedLength } from '../../src/timing/handbook.ts';
import { headerFlux, machOfFlux, orificeFlux, releaseEstimate } from '../../src/timing/release-estimate.ts';
import { aimedSpeed, checkReport } from '../../src/timing/rules/report.ts';
import { timeAreas } from '../../src/timing/time-area.ts';
import { volumesOf } from '../../src/timing/volume.ts';
import { engine, exhaustWindow, pipe, saltmarsh, section, transferWindow } from './saltmarsh.ts';

const MM = 1e-3;
const report = checkReport(saltmarsh);

describe('pipe geometry', () => {
  it('has cone angles and volumes of plane and solid geometry', () => {
    expect(includedAngleDeg({ length: 1, diameter: [0, 2] })).toBeCloseTo(90, 12);
    expect(coneVolume({ length: 3, diameter: [2, 2] })).toBeCloseTo(3 * Math.PI, 12);
    expect(coneVolume({ length: 3, diameter: [0, 2] })).toBeCloseTo(Math.PI, 12);
    const [passage, header] = sectionRows(saltmarsh);
    expect((Math.PI / 4) * (passage?.diameter[1] ?? 0) ** 2).toBeCloseTo(engine.passage.exitArea, 15);
    expect(header?.start).toBe(engine.passage.length);
  });

  it('measures to a baffle of several stages as to one', () => {
    const sections = pipe.sections.flatMap((part) =>
      part.role === 'baffle'
        ? [section('baffle 1', 'baffle', 95, 92, 60), section('baffle 2', 'baffle', 105, 60, 20.8)]
        : [part],
    );
    const staged = checkReport({ ...saltmarsh, pipe: { ...pipe, sections } });
    expect(staged.lengths.baffleStart).toBeCloseTo(0.74, 12);
    expect(staged.lengths.baffleMiddle).toBeCloseTo(0.84, 12);
    expect(staged.lengths.baffleEnd).toBeCloseTo(0.94, 12);
    expect(staged.lengths.total).toBeCloseTo(1.19, 12);
  });

  it('finds a diameter anywhere along the pipe', () => {
    expect(diameterAt(pipe, 0)).toBeCloseTo(33.5 * MM, 12);
    expect(diameterAt(pipe, 0.325)).toBeCloseTo(51.5 * MM, 12);
    expect(diameterAt(pipe, 9)).toBeCloseTo(20.8 * MM, 12);
  });
});

describe('report', () => {
  it('agrees with itself', () => {
    const { events, areas, windows, handbook, aim, timeAreas } = report;
    expect(events.blowdownDeg).toBeCloseTo(32, 9);
    expect(areas.transfer).toBeCloseTo(
      windows.filter((w) => w.port === 'transfer').reduce((sum, w) => sum + w.wallArea, 0),
      12,
    );
    expect(areas.exhaustStream).toBeCloseTo(windows[0]?.streamArea ?? 0, 12);
    expect(areas.exhaustStream).toBeLessThan(areas.exhaust * Math.cos((25 * Math.PI) / 180));
    expect(handbook.wantedLength).toBeCloseTo(tunedLength(handbook.soundSpeed, 194, 11_000), 12);
    expect(handbook.soundSpeed).toBeCloseTo(handbookSoundSpeed(handbook.gasTemperature), 12);
    const suits = checkReport({
      ...saltmarsh,
      run: { ...saltmarsh.run, targetSpeed: handbook.suitsSpeed ?? 0 },
    });
    const at = suits.handbook.returns.find((r) => r.rpm === handbook.suitsSpeed);
    expect(at?.lateDeg).toBeCloseTo(0, 9);
    expect(timeAreas.map((t) => t.rpm)).toEqual(saltmarsh.run.speeds);
    expect(aim.stated).toBe(true);
  });

  it('gives each speed the time-areas that it would get alone', () => {
    for (const row of report.timeAreas) {
      const alone = timeAreas(engineEvents(engine), report.displacement, row.rpm);
      for (const key of ['exhaust', 'blowdown', 'transfer', 'exhaustHandbook', 'transferHandbook'] as const) {
        expect(row[key] / alone[key]).toBeCloseTo(1, 12);
      }
    }
  });

  it('takes an assumed mean effective pressure and temperature, or other ones', () => {
    const cool = checkReport(saltmarsh, { bmep: 8e5, gasTemperature: 700 });
    expect(cool.handbook.gasTemperature).toBe(700);
    expect(cool.timeAreasWanted.blowdown).toBeLessThan(report.timeAreasWanted.blowdown);
    expect(checkReport(saltmarsh, { bmep: 8e5 }).handbook.gasTemperature).toBeCloseTo(773.15, 9);
  });

  it('aims at the middle of the sweep where no target is stated', () => {
    const none = { ...saltmarsh, run: { ...saltmarsh.run, targetSpeed: null } };
    expect(aimedSpeed(none)).toBe(10_000);
    expect(checkReport(none).aim.stated).toBe(false);
    expect(renderCheck(checkReport(none))).toMatch(/none stated/);
  });

  it('warns of a target outside the sweep, of transfers that open first, of a pipe without a baffle', () => {
    const far = checkReport({ ...saltmarsh, run: { ...saltmarsh.run, targetSpeed: 13_000 } });
    expect(far.warnings.join()).toMatch(/13000 rpm lies outside the sweep of 8000 to 12000/);
    const windows = [
      {
        ...exhaustWindow,
        roof: { by: 'duration', durationDeg: 125 } as const,
        cornerTop: 4 * MM,
        cornerBottom: 2 * MM,
      },
    ];
    const first = checkReport({
      ...saltmarsh,
      engine: { ...engine, exhaust: { ...engine.exhaust, windows } },
    });
    expect(first.warnings.join()).toMatch(/transfers open before the exhaust/);
    expect(first.rules.map((r) => r.advice).join()).not.toMatch(/NaN|Infinity/);
    const straight = { ...pipe, sections: [section('stub', 'header', 400, 36, 36)] };
    const bare = checkReport({ ...saltmarsh, pipe: straight });
    expect(bare.warnings.join()).toMatch(/no baffle/);
    expect(renderCheck(bare)).toMatch(/no baffle/);
    expect(renderCheck(bare)).not.toMatch(/NaN|Infinity/);
  });

  it('passes through JSON unharmed', () => {
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });
});

describe('release estimate', () => {
  it('passes choked and unchoked flow as St Venant and Wantzel do', () => {
    // γ = 1.3: Φ = 0.667262 when choked (derived here); p*/p₀ = 0.545728.
    const choked = (4e5 * 0.667262) / Math.sqrt(290 * 1200);
    expect(orificeFlux(4e5, 1200, 1e5)).toBeCloseTo(choked, 3);
    expect(orificeFlux(4e5, 1200, 0.545728 * 4e5)).toBeCloseTo(choked, 3);
    expect(orificeFlux(4e5, 1200, 4e5)).toBe(0);
  });

  it('makes a weak wave of ρ₀a₀u and finds its own Mach number again', () => {
    const sound = Math.sqrt(1.3 * 290 * 900);
    const density = 1e5 / (290 * 900);
    // Linear acoustics to first order in 1e-4 of pressure.
    expect(headerFlux(1e5 + 10, 1e5, 900, 900) / ((10 / (density * sound)) * density)).toBeCloseTo(1, 3);
    const flux = headerFlux(1.6e5, 1e5, 900, 1300);
    const u = ((2 * sound) / 0.3) * (1.6 ** (0.3 / 2.6) - 1);
    const temperature = 1300 - (u * u * 0.3) / (2 * 1.3 * 290);
    expect(machOfFlux(flux, 1.6e5, 1300)).toBeCloseTo(u / Math.sqrt(1.3 * 290 * temperature), 12);
    expect(machOfFlux(0, 1e5, 1300)).toBe(0);
    expect(machOfFlux(1e4, 1e5, 1300)).toBe(1);
  });

  it('leaves more pressure at transfer opening at a higher speed and load', () => {
    const at = (rpm: number, bmep: number) =>
      releaseEstimate(engine, engineEvents(engine), volumesOf(engine), {
        rpm,
        bmep,
        gasTemperature: 890,
        headerArea: 11e-4,
      }).pressureAtTransferOpening;
    expect(at(12_000, 10e5)).toBeGreaterThan(at(8000, 10e5));
    expect(at(11_000, 12e5)).toBeGreaterThan(at(11_000, 10e5));
    expect(at(8000, 10e5)).toBeGreaterThan(engine.ambient.pressure);
  });
});

describe('text', () => {
  const fits = (text: string, lines: number) => {
    const split = text.split('\n');
    expect(Math.max(...split.map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(split.length).toBeLessThanOrEqual(lines);
  };

  it('fits two screens of 80 columns and says everything', () => {
    const text = renderCheck(report);
    fits(text, 100);
    for (const rule of report.rules) {
      expect(text).toContain(rule.title);
      expect(text).toContain(rule.reason);
    }
    for (const part of pipe.sections) expect(text).toContain(part.name);
    for (const said of ['[mm2]', '[deg]', 'assumed', '0.03 mm', 'unverified', 'within local rules']) {
      expect(text).toContain(said);
    }
    expect(text).toMatch(/^> 11000 /m);
  });

  it('gives the advice of a broken rule with its mark', () => {
    const windows = [{ ...exhaustWindow, width: 42 * MM }];
    const text = renderCheck(
      checkReport({ ...saltmarsh, engine: { ...engine, exhaust: { ...engine.exhaust, windows } } }),
    );
    fits(text, 110);
    expect(text).toMatch(/^> Widest exhaust window/m);
    expect(text).toMatch(/\* Narrow by 4\.3 mm/);
  });

  it('shows a chamfer’s own edge, many speeds and hostile names without breaking', () => {
    const windows = [
      {
        ...exhaustWindow,
        name: '\u001b[31mred\u001b[0m'.padEnd(70, 'x'),
        chamferHeight: 1 * MM,
        chamferDepth: 1 * MM,
      },
    ];
    const subject = {
      ...saltmarsh,
      name: '<script>\nalert(1)</script>',
      engine: {
        ...engine,
        exhaust: { ...engine.exhaust, windows },
        transfers: { ...engine.transfers, windows: [transferWindow] },
      },
      run: {
        ...saltmarsh.run,
        speeds: Array.from({ length: 25 }, (_, i) => 6000 + 250 * i),
        targetSpeed: 11_250,
      },
    };
    const text = renderCheck(checkReport(subject));
    fits(text, 110);
    expect(text).not.toContain('\u001b');
    expect(text).toMatch(/edge/);
    expect(text).toMatch(/^> 11250 /m);
    expect(text.split('\n').filter((line) => /^[> ] +\d{4,5} +\d/.test(line))).toHaveLength(5);
  });
});
