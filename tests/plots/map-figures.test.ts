import { describe, expect, it } from 'vitest';
import { durationCurves } from '../../plots/figures/duration-curves.ts';
import type { Figure } from '../../plots/figures/figure.ts';
import { speedDurationField } from '../../plots/figures/speed-duration-field.ts';
import { mapGrid } from '../../plots/pages/map-grid.ts';
import { lookFor } from '../../plots/theme/look.ts';
import { light } from '../../plots/theme/palette.ts';
import type { DurationPoint } from '../../src/findings/row.ts';
import { syntheticMap } from './synthetic-pages.ts';

const look = lookFor(700, false);
const traces = (figure: Figure): Record<string, unknown>[] => figure.data as Record<string, unknown>[];

describe('fields over speed and duration', () => {
  const { points } = syntheticMap();

  it('sort points into a grid and leave gaps where one is missing', () => {
    const { fields, speeds, durations } = mapGrid([...points.slice(1)].reverse());
    expect(fields.torque).toHaveLength(9);
    expect(fields.torque[0]?.[0]).toBeNull();
    expect(fields.torque[1]?.[0]).not.toBeNull();
    const one = points.find(({ row }) => row.speed_rpm === speeds[3]) as DurationPoint;
    const at = fields.share[durations.indexOf(one.durationDeg)]?.[3];
    expect(at).toBe(100 * (one.row.plugback_share_before_closing ?? Number.NaN));
  });

  const field = {
    title: 'Torque',
    of: 'torque',
    reading: '%{z:.1f}',
    labelFormat: '.1f',
  } as const;
  const whole = (of: readonly DurationPoint[]) => ({ grid: mapGrid(of), points: of });
  const named = (from: readonly DurationPoint[], name: string): Record<string, unknown> | undefined =>
    traces(speedDurationField(whole(from), field, 194, look)).find((trace) => trace.name === name);

  it('highlight the band between the closings and draw its edges, and where the peak meets closing', () => {
    expect(named(points, 'window')).toBeUndefined();
    const [, , window] = traces(speedDurationField(whole(points), { ...field, fromWindow: true }, 194, look));
    expect(window).toMatchObject({ name: 'window', contours: { value: [0, 1] } });
    expect(named(points, 'middle at TC')).toMatchObject({
      contours: { start: 0, end: 0 },
      line: { color: light.line.transfer },
    });
    expect(named(points, 'middle at EC')).toMatchObject({
      contours: { start: 1, end: 1 },
      line: { color: light.line.exhaust },
    });
    expect(named(points, 'peak at EC')).toMatchObject({ line: { color: light.line.returning, dash: 'dot' } });
  });

  it('mark what did not settle, and only that', () => {
    const speeds = named(points, 'not settled')?.x as number[];
    expect(new Set(speeds)).toEqual(new Set([12_000]));
    const settled = points.map((point) => ({ ...point, row: { ...point.row, settled: true } }));
    expect(named(settled, 'not settled')?.x).toEqual([]);
  });

  it('shade away from the band on both its sides', () => {
    const figure = speedDurationField(whole(points), { ...field, fromWindow: true }, 194, look);
    const { zmin, zmax, colorscale } = traces(figure)[0] as {
      zmin: number;
      zmax: number;
      colorscale: [number, string][];
    };
    // Neutral from the place of transfer closing, 0, to that of exhaust closing, 1.
    expect(colorscale.slice(1, 3).map(([at, colour]) => [zmin + at * (zmax - zmin), colour])).toEqual([
      [expect.closeTo(0, 9), light.field[2]],
      [expect.closeTo(1, 9), light.field[2]],
    ]);
  });
});

describe('the curves over duration', () => {
  const { points } = syntheticMap();
  const figure = durationCurves(points, 9500, 194, look);
  const here = points.filter((point) => point.row.speed_rpm === 9500);

  it('draw the middle in the window that lies before exhaust closing, the peak dotted', () => {
    const curve = (name: string): unknown => traces(figure).find((trace) => trace.name === name)?.y;
    expect(curve('middle')).toEqual(
      here.map(({ row }) => row.exhaust_closes_deg - (row.plugback_centroid_deg ?? 0)),
    );
    expect(curve('peak')).toEqual(here.map(({ row }) => row.plugback_lead_deg));
    expect(curve('TC')).toEqual(here.map(({ row }) => row.exhaust_closes_deg - row.transfers_close_deg));
    const { shapes } = figure.layout as { shapes: { type: string; path?: string; fillcolor?: string }[] };
    expect(shapes[0]).toMatchObject({ type: 'path', fillcolor: light.useful });
    // From exhaust closing, 0, up to transfer closing at the longest duration.
    const [last] = here.slice(-1);
    const width = (last?.row.exhaust_closes_deg ?? 0) - (last?.row.transfers_close_deg ?? 0);
    expect(shapes[0]?.path).toContain(`L${last?.durationDeg},0L${last?.durationDeg},${width}`);
  });
});
