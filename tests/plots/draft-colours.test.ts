/**
 * Ring: identity. The colours of drafts against what people without one kind of cone see: linear RGB through the matrices
 * of Machado, Oliveira and Fernandes (IEEE Transactions on Visualization and Computer Graphics 15, 2009), severity 1;
 * differences are distances in CIE 1976 L*a*b*, in which about 2.3 is just noticeable (Mahy et al., Color Research and
 * Application 19, 1994).
 */

import { describe, expect, it } from 'vitest';
import { dark, draftDashes, light, type Palette } from '../../plots/theme/palette.ts';

type Triple = readonly [number, number, number];

const seenBy: Readonly<Record<string, readonly Triple[]>> = {
  'all cones': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  'no red cones': [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  'no green cones': [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  'no blue cones': [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

function linear(colour: string): Triple {
  const part = (i: number): number => {
    const share = Number.parseInt(colour.slice(1 + 2 * i, 3 + 2 * i), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return [part(0), part(1), part(2)];
}

const times = (row: Triple, [r, g, b]: Triple): number => row[0] * r + row[1] * g + row[2] * b;

/** CIE L*a*b* of linear sRGB, white D65. */
function lab(rgb: Triple): Triple {
  const root = (t: number): number => (t > 0.008856 ? Math.cbrt(t) : 7.787 * t + 16 / 116);
  const x = root(times([0.4124, 0.3576, 0.1805], rgb) / 0.95047);
  const y = root(times([0.2126, 0.7152, 0.0722], rgb));
  const z = root(times([0.0193, 0.1192, 0.9505], rgb) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

function difference(a: string, b: string, eyes: readonly Triple[]): number {
  const seen = (colour: string): Triple => {
    const rgb = linear(colour);
    const [r = 0, g = 0, bl = 0] = eyes.map((row) => Math.min(1, Math.max(0, times(row, rgb))));
    return lab([r, g, bl]);
  };
  const [one, other] = [seen(a), seen(b)];
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
}

const pairs = (colours: readonly string[]) =>
  colours.flatMap((a, i) => colours.slice(0, i).map((b, j) => ({ a, b, i, j })));

describe.each([
  ['light', light],
  ['dark', dark],
] as [string, Palette][])('colours of drafts, %s', (_, palette) => {
  it.each(Object.keys(seenBy))('the first four differ for eyes with %s', (eyes) => {
    for (const { a, b } of pairs(palette.drafts.slice(0, 4)))
      expect(difference(a, b, seenBy[eyes] ?? []), `${a} and ${b}`).toBeGreaterThan(15);
  });

  it('those that anybody might mistake differ in their dash', () => {
    for (const { a, b, i, j } of pairs(palette.drafts))
      if (Object.values(seenBy).some((eyes) => difference(a, b, eyes) < 15))
        expect(draftDashes[i], `${a} and ${b}`).not.toBe(draftDashes[j]);
  });

  it('none is that of a wave or of a port', () => {
    for (const name of ['outgoing', 'returning', 'exhaust', 'transfer'] as const)
      for (const colour of palette.drafts)
        expect(
          difference(colour, palette.line[name], seenBy['all cones'] ?? []),
          `${colour} and ${name}`,
        ).toBeGreaterThan(20);
  });
});
