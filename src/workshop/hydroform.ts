/**
 * Flat halves of a pipe that is blown up from two sheets welded along their edges. Each half is as wide as half the
 * circumference of the middle of the sheet, πd/2, along the length of the centreline; a bend lies flat at its true radius.
 * An approximation: in forming the edges draw in, cones shorten by the slant of their walls, and the sheet wrinkles inside
 * of bends. The rule is common practice, no source. Only pipes whose bends all lie in one plane have flat halves.
 */

import type { Bend, Pipe } from '../model/pipe.ts';
import { type Drawing, line, type Place, type Stroke } from './drawing.ts';
import { WorkshopError } from './workshop-error.ts';

interface Station {
  readonly place: Place;
  /** Heading of the centreline [rad]. */
  readonly heading: number;
  /** Half the flat width [mm]. */
  readonly half: number;
}

/** One half, of which two are cut; `edge` is left outside the line of the weld [m]. */
export function hydroformHalf(pipe: Pipe, thickness: number, edge: number, name: string): Drawing {
  refuseTwisted(pipe.bends);
  const stations = stationsOf(pipe, thickness);
  refuseFolded(pipe.bends, stations, 1000 * edge);
  const cut = outlineOf(stations, 1000 * edge);
  const weld = edge === 0 ? [] : outlineOf(stations, 0);
  const [first, last] = [stations[0]!, stations.at(-1)!];
  const middle = stations[Math.floor(stations.length / 2)]!;
  const length = pipe.sections.reduce((sum, one) => sum + one.length, 0);
  const words = [
    `${name}: hydroforming half, cut 2`,
    `approximate: shrinks in forming; length ${(1000 * length).toFixed(1)} of the centreline`,
    `sheet ${Number((1000 * thickness).toFixed(2))}; form with water only, never air`,
  ];
  const sideways = [...stations].sort((a, b) => a.place[1] - a.half - (b.place[1] - b.half))[0] ?? middle;
  const below = sideways.place[1] - sideways.half - 1000 * edge;
  return {
    title: words[0]!,
    outlines: [cut],
    folds: weld,
    marks: [
      { kind: 'path', places: stations.map(({ place }) => place) },
      line(beside(first, 1), beside(first, -1)),
      line(beside(last, 1), beside(last, -1)),
    ],
    lettering: words.map((text, index) => ({
      text,
      height: 3,
      upright: false,
      at: [(first.place[0] + last.place[0]) / 2, below - 6 - 6 * index],
    })),
  };
}

function refuseTwisted(bends: readonly Bend[]): void {
  const first = bends[0]?.planeDeg ?? 0;
  const twisted = bends.findIndex(
    ({ planeDeg }) => Math.abs(Math.sin(((planeDeg - first) * Math.PI) / 180)) > 1e-6,
  );
  if (twisted >= 0) {
    throw new WorkshopError(
      `Bend ${twisted + 1} leaves the plane of bend 1: a pipe of two flat halves has all its bends in one plane, 0 or 180 degrees apart.`,
    );
  }
}

function stationsOf({ sections, bends }: Pipe, thickness: number): readonly Station[] {
  const bounds: number[] = [0];
  for (const { length } of sections) bounds.push(bounds.at(-1)! + length);
  const total = bounds.at(-1)!;
  const extra = bends.flatMap((bend) => {
    const length = (bend.radius * bend.angleDeg * Math.PI) / 180;
    const count = Math.ceil(bend.angleDeg);
    return Array.from({ length: count + 1 }, (_, i) => bend.at + (length * i) / count);
  });
  const places = [...new Set([...bounds, ...extra])]
    .filter((at) => at <= total)
    .sort((a, b) => a - b)
    .filter((at, i, all) => i === 0 || at - all[i - 1]! > 1e-9);
  const plane = ((bends[0]?.planeDeg ?? 0) * Math.PI) / 180;
  const headingAt = (at: number): number =>
    bends.reduce((heading, { at: from, angleDeg, radius, planeDeg }) => {
      const side = Math.cos((planeDeg * Math.PI) / 180 - plane) > 0 ? 1 : -1;
      const turned = Math.min(Math.max(at - from, 0) / radius, (angleDeg * Math.PI) / 180);
      return heading + side * turned;
    }, 0);
  let place: Place = [0, 0];
  return places.map((at, i): Station => {
    const before = places[i - 1] ?? at;
    const [h0, h1] = [headingAt(before), headingAt(at)];
    // The chord of an arc lies along the mean heading.
    const turn = h1 - h0;
    const chord = 1000 * (at - before) * (Math.abs(turn) < 1e-12 ? 1 : Math.sin(turn / 2) / (turn / 2));
    place = [place[0] + chord * Math.cos((h0 + h1) / 2), place[1] + chord * Math.sin((h0 + h1) / 2)];
    const index = Math.min(
      Math.max(bounds.findIndex((bound) => bound >= at - 1e-12) - 1, 0),
      sections.length - 1,
    );
    const { diameter, length } = sections[index]!;
    const inside = diameter[0] + ((diameter[1] - diameter[0]) * (at - bounds[index]!)) / length;
    return { place, heading: h1, half: (1000 * Math.PI * (inside + thickness)) / 4 };
  });
}

function beside({ place: [x, y], heading, half }: Station, side: number, edge = 0): Place {
  const out = side * (half + edge);
  return [x - out * Math.sin(heading), y + out * Math.cos(heading)];
}

function outlineOf(stations: readonly Station[], edge: number): readonly Stroke[] {
  const left = stations.map((station) => beside(station, 1, edge));
  const right = stations.map((station) => beside(station, -1, edge)).reverse();
  return [
    { kind: 'path', places: left },
    line(left.at(-1)!, right[0]!),
    { kind: 'path', places: right },
    line(right.at(-1)!, left[0]!),
  ];
}

function refuseFolded(bends: readonly Bend[], stations: readonly Station[], edge: number): void {
  const widest = Math.max(...stations.map(({ half }) => half)) + edge;
  const tight = bends.findIndex(({ radius }) => 1000 * radius <= widest);
  if (tight >= 0) {
    throw new WorkshopError(
      `Bend ${tight + 1} is too tight for flat halves: they are ${(2 * widest).toFixed(0)} mm wide, so its radius has to be above ${widest.toFixed(0)} mm.`,
    );
  }
}
