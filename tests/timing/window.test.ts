/**
 * Window areas against closed forms of plane geometry (1e-9) and against an independent quadrature of outlines written
 * down a second time as inequalities in the plane (1e-6). Rings: exact solution, identity.
 */
import { describe, expect, it } from 'vitest';
import type { PortWindow } from '../../src/model/port-window.ts';
import { arcExcess, halfSegment } from '../../src/timing/circle-segment.ts';
import { crankOf } from '../../src/timing/crank.ts';
import { chordArea, streamArea } from '../../src/timing/stream-area.ts';
import type { WindowShape } from '../../src/timing/window.ts';
import {
  arcOfChord,
  chordOfArc,
  firstOpening,
  outlineArea,
  outlineWidth,
  windowArea,
  windowShape,
} from '../../src/timing/window.ts';

const MM = 1e-3;
const BORE = 54 * MM;
const crank = crankOf({ stroke: 54.5 * MM, rod: 110 * MM, pinOffset: 0 });

const plain: PortWindow = {
  name: 'window',
  count: 1,
  width: 40 * MM,
  widthMeasure: 'arc',
  roof: { by: 'travel', travel: 27 * MM },
  height: 26 * MM,
  cornerTop: 0,
  cornerBottom: 0,
  roofArch: 0,
  chamferHeight: 0,
  chamferDepth: 0,
  upAngleDeg: 0,
  aroundDeg: 0,
};

const shapeOf = (changes: Partial<PortWindow>) => windowShape(crank, BORE, { ...plain, ...changes });
const openAt = (shape: WindowShape, depthMm: number) => windowArea(shape, shape.roof + depthMm * MM);

function expectRelative(found: number, wanted: number, tolerance: number) {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(tolerance * Math.abs(wanted));
}

/** Area of a filled region by midpoint sums of its width, found by bisection of `inside` along each row [m2]. */
function regionArea(inside: (x: number, h: number) => boolean, depth: number, half: number) {
  const rows = 20_000;
  let area = 0;
  for (let i = 0; i < rows; i++) {
    // Rows crowd towards both ends, where a rounded outline has a vertical tangent.
    const t = (i + 0.5) / rows;
    const h = depth * t * t * (3 - 2 * t);
    const weight = (depth * 6 * t * (1 - t)) / rows;
    let lo = 0;
    let hi = half * 1.001;
    for (let k = 0; k < 50; k++) {
      const mid = (lo + hi) / 2;
      if (inside(mid, h)) lo = mid;
      else hi = mid;
    }
    area += 2 * lo * weight;
  }
  return area;
}

describe('circle segments', () => {
  it('integrate the half chord', () => {
    expect(halfSegment(2, 2)).toBeCloseTo(Math.PI, 14);
    expect(halfSegment(2, 4)).toBeCloseTo(2 * Math.PI, 14);
    // A thin sliver of a circle is a parabola: (2/3) d √(2rd) (1 − 3d/20r).
    const sliver = (2 / 3) * 1e-6 * Math.sqrt(2 * 5 * 1e-6) * (1 - (3 * 1e-6) / (20 * 5));
    expectRelative(halfSegment(5, 1e-6), sliver, 1e-12);
  });
  it('pass from series to sine without a step', () => {
    expectRelative(arcExcess(0.7), 0.7 - Math.sin(0.7), 1e-14);
  });
});

describe('closed forms', () => {
  it('rectangle', () => {
    const shape = shapeOf({});
    for (const depth of [1e-6, 0.5, 10, 26]) expectRelative(openAt(shape, depth), depth * 40e-6, 1e-9);
    expect(openAt(shape, 0)).toBe(0);
    expectRelative(openAt(shape, 27.5), 26 * 40e-6, 1e-9);
  });

  it('drilled hole', () => {
    const r = 12;
    const shape = shapeOf({ width: 24 * MM, height: 24 * MM, cornerTop: r * MM, cornerBottom: r * MM });
    for (const depth of [0.1, 3, 12, 17, 23.9, 24]) {
      const segment = r * r * Math.acos((r - depth) / r) - (r - depth) * Math.sqrt(depth * (2 * r - depth));
      expectRelative(openAt(shape, depth), segment * 1e-6, 1e-9);
    }
  });

  it('rounded rectangle loses (4 − π)r² over its four corners', () => {
    const shape = shapeOf({ cornerTop: 5 * MM, cornerBottom: 5 * MM });
    expectRelative(openAt(shape, 26), (26 * 40 - (4 - Math.PI) * 25) * 1e-6, 1e-9);
    const unequal = shapeOf({ cornerTop: 8 * MM, cornerBottom: 3 * MM });
    expectRelative(openAt(unequal, 26), (26 * 40 - (2 - Math.PI / 2) * (64 + 9)) * 1e-6, 1e-9);
  });

  it('arched roof, from a barely curved one to a half circle', () => {
    for (const rise of [1e-4, 0.05, 3, 12, 20]) {
      const shape = shapeOf({ roofArch: rise * MM });
      const radius = (400 + rise * rise) / (2 * rise);
      const exact = radius ** 2 * Math.atan2(20, radius - rise) - 20 * (radius - rise);
      // Where that cancels, a shallow segment is (2/3) × chord × rise × (1 + (4/5)(rise/chord)²).
      const shallow = (2 / 3) * 40 * rise * (1 + 0.8 * (rise / 40) ** 2);
      expectRelative(openAt(shape, 26), ((rise < 1 ? shallow : exact) + (26 - rise) * 40) * 1e-6, 1e-9);
    }
  });

  it('arch with corners: the corner circle touches arch and side', () => {
    const shape = shapeOf({ roofArch: 6 * MM, cornerTop: 7 * MM });
    for (const depth of [shape.archEnd, shape.sideStart]) {
      const step = 1e-9;
      const at = (i: number) => outlineWidth(shape, depth + i * step);
      expect(at(1) - at(-1)).toBeCloseTo(at(-1) - at(-3), 10);
    }
  });

  it('an arch flatter than can be cut is the flat roof', () => {
    const flat = shapeOf({ cornerTop: 5 * MM });
    const nearly = shapeOf({ cornerTop: 5 * MM, roofArch: 1e-9 * MM });
    for (const depth of [0.3, 3, 12]) expectRelative(openAt(nearly, depth), openAt(flat, depth), 1e-8);
  });

  it('chamfer on a flat roof: slit at right angles to the slant, then the window', () => {
    const shape = shapeOf({ chamferHeight: 1.2 * MM, chamferDepth: 0.5 * MM });
    const sine = 0.5 / 1.3;
    expect(firstOpening(shape)).toBeCloseTo(25.8 * MM, 15);
    expect(openAt(shape, -1.2)).toBeCloseTo(0, 18);
    expect(openAt(shape, -1.3)).toBe(0);
    for (const depth of [-1.1, -0.5, 0, 0.5]) {
      expectRelative(openAt(shape, depth), sine * (depth + 1.2) * 40e-6, 1e-9);
    }
    for (const depth of [0.8, 5, 26]) expectRelative(openAt(shape, depth), depth * 40e-6, 1e-9);
  });

  it('windows side by side add up', () => {
    const one = shapeOf({ cornerTop: 4 * MM, roofArch: 2 * MM, chamferHeight: 1 * MM, chamferDepth: 1 * MM });
    const three = shapeOf({
      count: 3,
      cornerTop: 4 * MM,
      roofArch: 2 * MM,
      chamferHeight: 1 * MM,
      chamferDepth: 1 * MM,
    });
    for (const depth of [-0.5, 1, 9, 26]) expectRelative(openAt(three, depth), 3 * openAt(one, depth), 1e-12);
  });
});

describe('the wall is curved', () => {
  it('turns a chord into an arc and back', () => {
    expect(arcOfChord(27 * MM, BORE)).toBeCloseTo((Math.PI / 6) * BORE, 15);
    expect(chordOfArc(arcOfChord(38 * MM, BORE), BORE)).toBeCloseTo(38 * MM, 15);
    expect(() => arcOfChord(55 * MM, BORE)).toThrow(/does not fit/);
    const shape = shapeOf({ width: 38 * MM, widthMeasure: 'chord' });
    expect(shape.chordWidth).toBeCloseTo(38 * MM, 15);
    expectRelative(openAt(shape, 10), 10 * MM * BORE * Math.asin(38 / 54), 1e-12);
  });

  it('is seen by the stream as a chord times a height, less where it rises', () => {
    const shape = shapeOf({ width: 38 * MM, widthMeasure: 'chord' });
    for (const depth of [1, 10, 26]) expectRelative(chordArea(shape, depth * MM), depth * 38e-6, 1e-12);
    const rising = shapeOf({ width: 38 * MM, widthMeasure: 'chord', upAngleDeg: 60, count: 2 });
    expectRelative(streamArea(rising, rising.floor), 0.5 * 2 * 26 * 38e-6, 1e-12);
    const chamfered = shapeOf({
      width: 38 * MM,
      widthMeasure: 'chord',
      chamferHeight: 4 * MM,
      chamferDepth: 3 * MM,
    });
    expectRelative(streamArea(chamfered, chamfered.roof - 1 * MM), 0.6 * 3 * 38e-6, 1e-12);
  });

  it.each([
    { roofArch: 5 * MM, cornerTop: 8 * MM, cornerBottom: 6 * MM },
    { width: 24 * MM, height: 24 * MM, cornerTop: 12 * MM, cornerBottom: 12 * MM },
    { roofArch: 20 * MM },
    { roofArch: 0.2 * MM, cornerTop: 3 * MM },
  ])('is seen by the stream as the sum of its chords: %j', (changes) => {
    const shape = shapeOf(changes);
    for (const share of [0.01, 0.2, 0.6, 1]) {
      const depth = share * (shape.floor - shape.roof);
      const rows = 100_000;
      let sum = 0;
      for (let i = 0; i < rows; i++) {
        const t = (i + 0.5) / rows;
        const width = outlineWidth(shape, depth * t * t * (3 - 2 * t));
        sum += ((depth * 6 * t * (1 - t)) / rows) * BORE * Math.sin(width / BORE);
      }
      expectRelative(chordArea(shape, depth), sum, 1e-8);
    }
  });
});

describe('against quadrature of the same outline', () => {
  const cases: { name: string; changes: Partial<PortWindow> }[] = [
    { name: 'arch alone', changes: { roofArch: 7 * MM } },
    { name: 'arch and corners', changes: { roofArch: 5 * MM, cornerTop: 8 * MM, cornerBottom: 6 * MM } },
    { name: 'corners alone', changes: { cornerTop: 9 * MM, cornerBottom: 4 * MM } },
    { name: 'half circle roof', changes: { roofArch: 20 * MM, cornerBottom: 2 * MM } },
    { name: 'hole', changes: { width: 20 * MM, height: 20 * MM, cornerTop: 10 * MM, cornerBottom: 10 * MM } },
  ];
  it.each(cases)('$name', ({ changes }) => {
    const shape = shapeOf(changes);
    const full = { ...plain, ...changes };
    const half = full.width / 2;
    const height = full.height as number;
    const { cornerTop: rt, cornerBottom: rb, roofArch: a } = full;
    const radius = a > 0 ? (half * half + a * a) / (2 * a) : 0;
    // A corner's circle rolls along inside the larger shape: a point is in when it is within rt of a legal centre.
    const roof = (x: number, inset: number) =>
      a > 0 ? radius - Math.sqrt(Math.max(0, (radius - inset) ** 2 - x * x)) : inset;
    const inside = (x: number, h: number) => {
      if (x > half || h > height) return false;
      if (h < roof(x, 0)) return false;
      const cx = half - rt;
      const cy = roof(cx, rt);
      if (rt > 0 && x > cx && h < cy) {
        const touchX = a > 0 ? (cx * radius) / (radius - rt) : cx;
        const outside = Math.hypot(x - cx, h - cy) > rt;
        if (outside && (a === 0 || x > touchX || h > roof(touchX, 0))) return false;
      }
      const by = height - rb;
      return !(rb > 0 && x > half - rb && h > by && Math.hypot(x - (half - rb), h - by) > rb);
    };
    for (const share of [0.08, 0.35, 0.8, 1]) {
      const depth = share * height;
      expectRelative(outlineArea(shape, depth), regionArea(inside, depth, half), 1e-6);
    }
  });

  it('chamfered: the slit is the least distance from the crown to the slant', () => {
    // In the section through bore wall and chamfer the crown's edge is a point; the slant runs from (0, −c) to (d, 0).
    const [c, d] = [1.5, 0.9];
    const shape = shapeOf({ chamferHeight: c * MM, chamferDepth: d * MM });
    for (const depth of [-1.4, -0.7, -0.1]) {
      let least = Infinity;
      for (let i = 0; i <= 100_000; i++) {
        const t = i / 100_000;
        least = Math.min(least, Math.hypot(t * d, -c + t * c - depth));
      }
      expectRelative(openAt(shape, depth), 40e-6 * least, 1e-6);
    }
  });
});

describe('every window', () => {
  const all: Partial<PortWindow>[] = [
    { height: null },
    {
      roofArch: 4 * MM,
      cornerTop: 9 * MM,
      cornerBottom: 9 * MM,
      chamferHeight: 1 * MM,
      chamferDepth: 0.4 * MM,
    },
    { width: 24 * MM, height: 24 * MM, cornerTop: 12 * MM, cornerBottom: 12 * MM },
    { height: 22 * MM, chamferHeight: 0.3 * MM, chamferDepth: 3 * MM, count: 2 },
    { roofArch: 20 * MM, height: null },
  ];
  it.each(all)('opens without a jump and never closes before bottom dead centre: %j', (changes) => {
    const shape = shapeOf(changes);
    const step = crank.stroke / 40_000;
    let least = 0;
    let most = 0;
    for (let i = 1; i <= 40_000; i++) {
      const change = windowArea(shape, i * step) - windowArea(shape, (i - 1) * step);
      least = Math.min(least, change);
      most = Math.max(most, change);
    }
    expect(windowArea(shape, 0)).toBe(0);
    expect(least).toBeGreaterThanOrEqual(-1e-18);
    expect(most).toBeLessThanOrEqual(1.0001 * step * shape.count * shape.arcWidth);
    const width = outlineWidth(shape, 10 * MM);
    const slope = (outlineArea(shape, 10.001 * MM) - outlineArea(shape, 9.999 * MM)) / (0.002 * MM);
    expect(slope).toBeCloseTo(width, 7);
  });

  it('is refused when its corners do not fit', () => {
    expect(() => shapeOf({ cornerTop: 21 * MM })).toThrow(/larger than half/);
    expect(() => shapeOf({ height: 8 * MM, cornerTop: 5 * MM, cornerBottom: 5 * MM })).toThrow(
      /more than its height/,
    );
  });
});
