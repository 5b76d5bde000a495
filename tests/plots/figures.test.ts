import { describe, expect, it } from 'vitest';
import { levelBars } from '../../plots/figures/bars.ts';
import { blowdown, gasExchange, machTrace } from '../../plots/figures/breathing.ts';
import { draftCurves } from '../../plots/figures/draft-curves.ts';
import { durationCurves } from '../../plots/figures/duration-curves.ts';
import { extreme } from '../../plots/figures/extremes.ts';
import type { Figure } from '../../plots/figures/figure.ts';
import { namedOutlines, outlineDrawing } from '../../plots/figures/outline-drawing.ts';
import { outputCurves } from '../../plots/figures/output-curves.ts';
import { parallelAxes } from '../../plots/figures/parallel-axes.ts';
import { plugbackTiming } from '../../plots/figures/plugback-timing.ts';
import { portTraces } from '../../plots/figures/port-traces.ts';
import { purity } from '../../plots/figures/purity.ts';
import { eventsOf } from '../../plots/figures/row-events.ts';
import { searchHistory } from '../../plots/figures/search-history.ts';
import { swings } from '../../plots/figures/swing.ts';
import { temperatureAlong } from '../../plots/figures/temperature-along.ts';
import { timingGlance } from '../../plots/figures/timing-glance.ts';
import { waveDiagram } from '../../plots/figures/wave-diagram.ts';
import { pushApart } from '../../plots/marks/end-label.ts';
import { fieldScale } from '../../plots/marks/pressure-shades.ts';
import { silhouette } from '../../plots/marks/silhouette.ts';
import { packSweep } from '../../plots/pages/pack-sweep.ts';
import { unpackSpeed } from '../../plots/pages/packed-sweep.ts';
import { rangeOf } from '../../plots/theme/axes.ts';
import { namedEvents } from '../../plots/theme/events.ts';
import { lookFor } from '../../plots/theme/look.ts';
import { dark, dashes, light } from '../../plots/theme/palette.ts';
import { syntheticMap, syntheticOvernight } from './synthetic-pages.ts';
import { syntheticSweep } from './synthetic-sweep.ts';

const look = lookFor(700, false);
const sweep = syntheticSweep({ hostile: true });
const packed = packSweep(sweep);
const speed = unpackSpeed(packed, 12);
if (!speed) throw new Error('the synthetic sweep has no thirteenth speed');
const events = eventsOf(speed.row);

const traces = (figure: Figure): Record<string, unknown>[] => figure.data as Record<string, unknown>[];
const annotations = (figure: Figure): { text: string; font?: { color?: string } }[] =>
  (figure.layout as { annotations?: { text: string }[] }).annotations ?? [];
const texts = (figure: Figure): string =>
  annotations(figure)
    .map((one) => one.text)
    .join('\n');

const figures: Record<string, Figure> = {
  timing: plugbackTiming(packed.rows, look),
  output: outputCurves(packed.rows, look),
  exchange: gasExchange(packed.rows, look),
  blowdown: blowdown(packed.rows, packed.blowdownMach, look),
  waves: portTraces(speed.traces, events, packed.ambientBar, look),
  diagram: waveDiagram(speed.field, speed.paths, packed.outline, events, packed.ambientBar, look),
  mach: machTrace(speed.traces, events, look),
  heat: temperatureAlong(speed.along, { position: 68, temperature: 573 }, look),
  purity: purity(speed.purity, look),
  drafts: draftCurves([{ name: '<b>A</b>', rows: packed.rows }], 9000, look),
  durations: durationCurves(syntheticMap().points, 9500, 194, look),
};

describe('every figure', () => {
  it.each(Object.entries(figures))('%s is plain data, sized, with units on its axes', (_, figure) => {
    expect(JSON.parse(JSON.stringify(figure.layout))).toEqual(figure.layout);
    expect(figure.layout).toMatchObject({ width: 700, showlegend: false });
    expect(figure.data.length).toBeGreaterThan(0);
    expect(texts(figure)).toMatch(/\[[^\]]+\]/);
  });

  it.each(Object.entries(figures))('%s carries no mark-up from names', (_, figure) => {
    expect(JSON.stringify(figure)).not.toMatch(/<script|<b>A/);
  });

  it('gives a narrower look to a phone, and no dragging there that would stop it scrolling', () => {
    const narrow = lookFor(360, true);
    expect(plugbackTiming(packed.rows, narrow).layout).toMatchObject({ width: 360, dragmode: false });
    expect(narrow.palette).toBe(dark);
  });

  it('stands an empty sweep', () => {
    expect(plugbackTiming([], look).data).toEqual([]);
    expect(String(timingGlance([], 'nothing'))).toBe('');
    expect(outputCurves([], look).data).toHaveLength(2);
  });
});

describe('quantities keep their colour and dash', () => {
  it('wherever the returning wave is drawn', () => {
    const { returning } = light.line;
    const inWaves = traces(figures.waves as Figure).find((trace) => trace.name === 'returning');
    const middle = traces(figures.timing as Figure).find((trace) => trace.name === 'middle');
    for (const trace of [inWaves, middle])
      expect(trace?.line).toMatchObject({ color: returning, dash: dashes.returning });
    expect(JSON.stringify(traces(figures.diagram as Figure))).toContain(returning);
  });
});

describe('the crank axis', () => {
  it('names the events in their order, from one exhaust opening to the next', () => {
    const named = namedEvents(events);
    expect(named.map((event) => event.short)).toEqual(['EO', 'TO', 'BDC', 'TC', 'EC', 'TDC', 'next EO']);
    const angles = named.map((event) => event.angle);
    expect(angles).toEqual([...angles].sort((a, b) => a - b));
    expect((angles.at(-1) ?? 0) - (angles[0] ?? 0)).toBe(360);
    const { xaxis } = (figures.waves as Figure).layout as { xaxis: { ticktext: string[]; range: number[] } };
    expect(xaxis.ticktext).toHaveLength(7);
    expect(xaxis.ticktext[3]).toBe('TC<br>246°');
    expect(xaxis.range).toEqual([83, 443]);
  });
});

describe('plug-back timing', () => {
  it('draws what the rows hold, whatever the order, with both closings named', () => {
    const columns = {
      middle: 'plugback_centroid_deg',
      peak: 'plugback_peak_deg',
      onset: 'plugback_onset_deg',
      end: 'plugback_end_deg',
      handbook: 'handbook_return_deg',
      'traced, baffle middle': 'traced_return_baffle_middle_deg',
    } as const;
    for (const [name, column] of Object.entries(columns)) {
      const trace = traces(figures.timing as Figure).find((one) => one.name === name);
      expect(trace?.y, name).toEqual(packed.rows.map((row) => row[column]));
    }
    expect(texts(figures.timing as Figure)).toMatch(/EC 277°[\s\S]*TC 246°/);
  });

  it('bars the speeds whose cycles differ, by half of what they differ', () => {
    const rows = packed.rows.map((row, i) => ({
      ...row,
      spread_plugback_deg: i === 3 ? 8 : 0.1,
      spread_torque_percent: i === 4 ? 9.5 : 0.2,
    }));
    expect(rows.filter(swings)).toHaveLength(2);
    const bars = (figure: Figure, name: string): (number | undefined)[] => {
      const trace = traces(figure).find((one) => one.name === name) as { error_y: { array: number[] } };
      return [3, 4, 5].map((i) => trace.error_y.array[i]);
    };
    expect(bars(plugbackTiming(rows, look), 'peak')).toEqual([4, 0.05, 0]);
    const [, torque] = bars(outputCurves(rows, look), 'torque');
    expect(torque).toBeCloseTo((0.095 * (rows[4]?.torque_nm ?? 0)) / 2, 9);
  });

  it('marks useful speeds with full dots', () => {
    const middle = traces(figures.timing as Figure).find((one) => one.name === 'middle') as {
      marker: { size: number[] };
    };
    expect(middle.marker.size.filter((size) => size === 10)).toHaveLength(7);
  });
});

describe('the wave diagram', () => {
  it('has one row of pressures an angle and one column a position', () => {
    const field = traces(figures.diagram as Figure)[0] as {
      x: number[];
      y: number[];
      z: ArrayLike<number>[];
    };
    expect(field.z).toHaveLength(field.y.length);
    expect(field.z[0]).toHaveLength(field.x.length);
  });

  it('puts the neutral shade at the surroundings’ pressure', () => {
    const scale = fieldScale(look, 0.5, 1, 2);
    expect(scale[2]?.[0]).toBeCloseTo(1 / 3, 12);
    expect(scale[2]?.[1]).toBe(light.field[2]);
  });

  it('closes the silhouette and keeps it symmetrical', () => {
    const { x, y } = silhouette(packed.outline);
    expect([x[0], y[0]]).toEqual([x.at(-1), y.at(-1)]);
    expect(Math.max(...y)).toBe(-Math.min(...y));
    expect(Math.max(...y)).toBe(59);
  });
});

describe('labels', () => {
  it('are pushed apart, keep their order, and stay inside', () => {
    const places = pushApart([10, 10.5, 11, 90], 5, 0, 100);
    expect(places).toEqual([10, 15, 20, 90]);
    expect(pushApart([99, 98, 97], 5, 0, 100)).toEqual([100, 95, 90]);
  });

  it('ranges cover finite values only', () => {
    expect(rangeOf([1, null, Number.NaN, 3], 0)).toEqual([1, 3]);
    expect(rangeOf([], 0)).toEqual([0, 1]);
  });

  it('find the highest and lowest between two angles', () => {
    expect(extreme([0, 1, 2, 3], [9, 1, 5, 8], 1, 2, 1)).toBe(2);
    expect(extreme([0, 1, 2, 3], [0, 7, 5, 8], 1, 3, -1)).toBe(2);
  });
});

describe('a study', () => {
  const { drafts, varied } = syntheticOvernight();

  it('draws every scored draft over parallel axes, the best apart', () => {
    const figure = parallelAxes(drafts, varied, 'kW', 4, look);
    const scored = drafts.filter((draft) => draft.score !== null).length;
    const faint = traces(figure)[0] as { y: (number | null)[] };
    expect(faint.y.filter((value) => value === null)).toHaveLength(scored - 4);
    expect(figure.data).toHaveLength(5);
  });

  it('draws what each draft of a search gave, and that of the best by the score so far', () => {
    // The third gives most, but its wave lands outside, which the score holds against it.
    const history = [3, 5, 9, null, 6].map((value, i) => ({
      evaluation: i + 1,
      value,
      score: value === 9 ? 2 : value,
      lands: value !== 9,
    }));
    const [inside, outside, front] = traces(searchHistory(history, 'torque', look));
    expect(inside?.y).toEqual([3, 5, null, 6]);
    expect(outside?.y).toEqual([9]);
    expect(front?.y).toEqual([3, 5, 5, 5, 6]);
  });
});

describe('outlines', () => {
  it('are drawn to one scale and escape their names', () => {
    const drawing = String(outlineDrawing([{ name: '<i>', outline: packed.outline }], 'a "pipe"'));
    expect(drawing).not.toContain('<i>');
    expect(drawing).toContain('aria-label="a &quot;pipe&quot;"');
    expect(drawing).toContain('viewBox="-4 0 1138 130"');
  });

  it('stand one above the other to one scale, their flanges in one line', () => {
    const passage = packed.outline.find((part) => part.role === 'passage')?.end ?? 0;
    const bare = packed.outline
      .filter((part) => part.role !== 'passage')
      .map((part) => ({ ...part, start: part.start - passage, end: part.end - passage }));
    const stack = String(
      namedOutlines([
        { name: 'with its passage', outline: packed.outline },
        { name: '<i>', outline: bare },
      ]),
    );
    expect(stack).not.toContain('<i>');
    expect(stack.match(/<svg/g)).toHaveLength(2);
    expect(new Set(stack.match(/viewBox="-4 0 1138 /g)).size).toBe(1);
    const left = (index: number): number =>
      Number(new RegExp(`draft-${index}" points="([\\d.]+),`).exec(stack)?.[1]);
    expect(left(0)).toBeCloseTo(0, 6);
    expect(left(1)).toBeCloseTo(passage, 1);
  });
});

describe('bars', () => {
  it('show less and more as they were found, one above the other', () => {
    const figure = levelBars(
      [{ name: 'header', values: [-1.1, -11.2] }],
      { title: 'torque', decimals: 1, unit: 'Nm', colour: 'torque' },
      look,
    );
    const [less, more] = traces(figure) as unknown as { x: number[]; y: number[]; text: string[] }[];
    expect([less?.x, more?.x]).toEqual([[-1.1], [-11.2]]);
    expect(less?.y[0]).toBeGreaterThan(more?.y[0] ?? 0);
    expect([less?.text, more?.text]).toEqual([['−1.1 Nm'], ['−11.2 Nm']]);
  });
});

describe('curves of drafts', () => {
  const { rows } = packed;
  it('show the middle of the wave before exhaust closing, the window in which it is wanted, and crosses', () => {
    const swept = rows.map((row, i) => ({ ...row, settled: i !== 2 }));
    const figure = draftCurves([{ name: 'a', rows: swept }], null, look);
    const [middle, cross] = traces(figure) as unknown as { y: (number | null)[] }[];
    expect(middle?.y).toEqual(rows.map((row) => row.exhaust_closes_deg - (row.plugback_centroid_deg ?? 0)));
    expect(cross?.y.map((value) => value !== null)).toEqual(swept.map((_, i) => i === 2));
    const band = (figure.layout.shapes as { type: string; y0: number; y1: number }[]).find(
      ({ type }) => type === 'rect',
    );
    const { exhaust_closes_deg: closes, transfers_close_deg: transfers } = rows[0] as (typeof rows)[0];
    expect([band?.y0, band?.y1]).toEqual([0, closes - transfers]);
  });
});
