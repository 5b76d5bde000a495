/**
 * Whether the windows leave metal between them. A window certainly reaches its full width where neither its arch nor its
 * corners narrow it: two that do so at one height, at stated positions closer than their half widths together, are one
 * hole; and where no positions are stated, windows that are wider together than the bore is round cannot be cut at all.
 * A pair stands at either side of the exhaust's middle; of three and more the positions are not known.
 */

import type { PortWindow } from '../../model/port-window.ts';
import type { Crank } from '../../timing/crank.ts';
import { windowShape } from '../../timing/window.ts';
import type { Judge } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';

const millimetres = (value: number): string => writeQuantity(value, 'length', 'mm', 4);
const RADIAN = Math.PI / 180;

/** A window, or one of a pair, on the wall of the bore. */
interface Cut {
  readonly path: readonly (string | number)[];
  readonly name: string;
  /** Middle, from the middle of the exhaust [rad]; null: not known. */
  readonly middle: number | null;
  readonly arc: number;
  /** Where it is surely as wide as it gets: travel of the crown from there to there [m]. */
  readonly from: number;
  readonly to: number;
}

export interface PortsOnBore {
  readonly exhaust: readonly PortWindow[];
  readonly transfers: readonly PortWindow[];
}

export function leaveMetal(ports: PortsOnBore, bore: number, crank: Crank, judge: Judge): boolean {
  const cuts = [
    ...cutsOf(ports.exhaust, 'exhaust', bore, crank),
    ...cutsOf(ports.transfers, 'transfers', bore, crank),
  ];
  return exhaustFits(cuts, bore, judge) && roomAround(cuts, bore, judge) && noneOverlap(cuts, bore, judge);
}

function cutsOf(
  windows: readonly PortWindow[],
  port: 'exhaust' | 'transfers',
  bore: number,
  crank: Crank,
): readonly Cut[] {
  return windows.flatMap((window, index) => {
    const shape = windowShape(crank, bore, window);
    const middleHeight = (shape.roof + shape.floor) / 2;
    const cut = {
      path: [port, 'windows', index, window.aroundDeg === null ? 'width' : 'around'],
      name: window.name,
      arc: shape.arcWidth,
      from: Math.min(middleHeight, shape.roof + shape.sideStart),
      to: Math.max(middleHeight, shape.floor - shape.cornerBottom),
    };
    return middles(window, port === 'exhaust' && windows.length === 1).map((middle) => ({ ...cut, middle }));
  });
}

function middles({ aroundDeg, count }: PortWindow, soleExhaust: boolean): readonly (number | null)[] {
  if (count === 1) return [aroundDeg === null ? (soleExhaust ? 0 : null) : aroundDeg * RADIAN];
  if (count === 2 && aroundDeg !== null) return [aroundDeg * RADIAN, -aroundDeg * RADIAN];
  return Array.from({ length: count }, () => null);
}

/** The exhaust takes one side of the bore; the transfers need the other. */
function exhaustFits(cuts: readonly Cut[], bore: number, judge: Judge): boolean {
  const exhaust = cuts.filter(({ path }) => path[0] === 'exhaust');
  const arc = exhaust.reduce((sum, one) => sum + one.arc, 0);
  const half = (Math.PI * bore) / 2;
  if (arc <= half) return true;
  judge.refuse(
    ['exhaust', 'windows'],
    `the exhaust windows are ${millimetres(arc)} wide together along the bore, more than half its round of ${millimetres(2 * half)}`,
    'the transfers need the other half',
  );
  return false;
}

/** At no height may the windows be wider together than the bore is round. */
function roomAround(cuts: readonly Cut[], bore: number, judge: Judge): boolean {
  for (const { from: height } of cuts) {
    const here = cuts.filter(({ from, to }) => from <= height && height <= to);
    const arc = here.reduce((sum, one) => sum + one.arc, 0);
    if (arc < Math.PI * bore) continue;
    const names = [...new Set(here.map(({ name }) => name))].join(', ');
    judge.refuse(
      here[0]!.path.slice(0, 2),
      `${names} are ${millimetres(arc)} wide together at one height; the bore is ${millimetres(Math.PI * bore)} round`,
      'no metal is left between them: make them narrower or fewer',
    );
    return false;
  }
  return true;
}

/** How well a position round the bore is known: a degree or two [m]. */
const MEASURED = 1e-3;

/** Windows at stated positions must not run into each other. */
function noneOverlap(cuts: readonly Cut[], bore: number, judge: Judge): boolean {
  for (const [index, one] of cuts.entries()) {
    for (const other of cuts.slice(0, index)) {
      if (one.middle === null || other.middle === null) continue;
      if (one.from > other.to || other.from > one.to) continue;
      const turned = Math.abs(one.middle - other.middle) % (2 * Math.PI);
      const apart = (Math.min(turned, 2 * Math.PI - turned) * bore) / 2;
      const overlap = (one.arc + other.arc) / 2 - apart;
      if (overlap <= 1e-9) continue;
      if (overlap <= MEASURED) {
        judge.warn(
          `As stated, the windows ${one.name} and ${other.name} overlap by ${millimetres(overlap)} along the bore: no wall is left.`,
        );
        continue;
      }
      const what = other.name === one.name ? 'the other of its pair' : `the window ${other.name}`;
      judge.refuse(
        one.path,
        `${one.name} overlaps ${what} by ${millimetres(overlap)} along the bore: no metal is left between them`,
        'move it round by "around", or make one narrower',
      );
      return false;
    }
  }
  return true;
}
