/**
 * The pipe file of a first case: Blair's proportions for the engine and the speed aimed at, with the belly between his broad
 * and his racing pipe, and cones no shallower than is usual. A start to be judged and moved, not a finding.
 */

import type { Section } from '../../model/section.ts';
import { areaOf, diameterOf } from '../../pipe/circle.ts';
import { TWO_STAGE_RACING } from '../../pipe/pipe-proportions.ts';
import { lengthOf, TRANSITION } from '../../pipe/places.ts';
import { withSteeperCones } from '../../pipe/steeper-cones.ts';
import {
  HANDBOOK_BMEP,
  handbookGasTemperature,
  handbookSections,
  handbookSoundSpeed,
  tunedLength,
} from '../../timing/handbook.ts';
import type { Dimensions } from './dimensions.ts';
import { line, mm, quotedText } from './lines.ts';

/**
 * Length over the handbook's, the first that leaves the pipe within what is usual. With the handbook's own, six of seven invented
 * engines of all sorts, swept, had their best power 2 to 15 % below the speed aimed at: this program's own result.
 */
const LENGTHS = [0.957, 0.97, 0.985] as const;
const SHORTEST = 0.935;
const PROPORTIONS = { ...TWO_STAGE_RACING, belly: 2.7, stinger: 0.62 };

/** A pipe of a length over the handbook's. */
function drawn({ known, exhaustDuration, passageLength, flange, portArea }: Dimensions, length: number) {
  const passage = { length: passageLength.value, exitArea: areaOf(flange.value) };
  const wish = {
    rpm: known.rpm / length,
    durationDeg: exhaustDuration.value,
    gasTemperature: handbookGasTemperature(HANDBOOK_BMEP),
    proportions: PROPORTIONS,
  };
  const steep = (sections: readonly Section[]) => withSteeperCones(sections, passage.length);
  return steep(withTaperedHeader(steep(handbookSections({ passage }, wish)), flange.value, portArea));
}

function usualPipe(sizes: Dimensions): readonly Section[] {
  const { known, exhaustDuration, passageLength } = sizes;
  const speed = handbookSoundSpeed(handbookGasTemperature(HANDBOOK_BMEP));
  const wanted = tunedLength(speed, exhaustDuration.value, known.rpm);
  const reach = (sections: readonly Section[]): number =>
    lengthOf(
      sections.filter(({ role }) => role !== 'stinger'),
      passageLength.value,
    );
  const found = LENGTHS.map((length) => drawn(sizes, length)).find((one) => reach(one) >= SHORTEST * wanted);
  return found ?? drawn(sizes, 1);
}

export function pipeText(sizes: Dimensions): string {
  const { known, exhaustDuration, flange } = sizes;
  const sections = usualPipe(sizes);
  return `${[
    `# assumed, all of it: handbook proportions for ${known.rpm} rpm and ${exhaustDuration.value} deg of`,
    '# exhaust (Blair 1996, values from memory), a little short of its length, which',
    '# sweeps find late. Lengths along the axis from the flange on, diameters inside.',
    '# Of a pipe that exists, write what the tape says outside: circumference:',
    '# [130 mm, 270 mm], and sheet: 0.8 mm, once.',
    '# More keys: echocone keys pipe.',
    'kind: pipe',
    `name: ${quotedText(`usual proportions for ${known.rpm} rpm`)}`,
    'sections:',
    ...sections.map(({ name, length, diameter: [left, right] }, k) => {
      const from = mm(k === 0 ? flange.value : left, k === 0 ? 1 : 0);
      const to = mm(right, 0);
      const ends = k === 0 ? `diameter: [${from}, ${to}]` : from === to ? 'diameter: same' : `to: ${to}`;
      return `  - { name: ${name}, length: ${mm(length, 0)}, ${ends} }`;
    }),
    '',
    '# The wall moves the tuned speed. Thermocouple under a clip; take the sign away:',
    line(
      '# wall: { given: [{ at: 50 mm, temperature: 430 degC }] }',
      '450 degC at the flange to 200',
      'usual',
    ),
  ].join('\n')}\n`;
}

/** Whole taper of a header at most, its diameter's growth over its length [-]: 2.9 deg, 4 where it is all transition. */
const TAPER = { long: 0.05, short: 0.07 } as const;

/**
 * The header opens from the flange so that it has about the port's area where the transition ends, as far as a usual taper
 * allows.
 */
function withTaperedHeader(
  sections: readonly Section[],
  flange: number,
  portArea: number,
): readonly Section[] {
  const [header, cone, ...rest] = sections;
  if (header?.role !== 'header' || cone === undefined) return sections;
  const wanted = Math.max(0, diameterOf(portArea) - flange);
  const most = header.length < TRANSITION ? TAPER.short : TAPER.long;
  const opens = Math.min(most, wanted / TRANSITION) * header.length;
  const end = Math.max(1.02 * flange, flange + opens);
  return [{ ...header, diameter: [flange, end] }, { ...cone, diameter: [end, cone.diameter[1]] }, ...rest];
}
