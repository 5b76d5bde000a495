/**
 * The pipe file of a first case: Blair's proportions for the engine and the speed aimed at, with the belly between his broad
 * and his racing pipe. A start to be judged and moved, not a finding.
 */

import { areaOf } from '../../pipe/circle.ts';
import { TWO_STAGE_RACING } from '../../pipe/pipe-proportions.ts';
import { HANDBOOK_BMEP, handbookGasTemperature, handbookSections } from '../../timing/handbook.ts';
import type { Dimensions } from './dimensions.ts';
import { line, mm, quotedText } from './lines.ts';

const PROPORTIONS = { ...TWO_STAGE_RACING, belly: 2.7, stinger: 0.62 };

export function pipeText({ known, exhaustDuration, passageLength, flange }: Dimensions): string {
  const passage = { length: passageLength.value, exitArea: areaOf(flange.value) };
  const sections = handbookSections(
    { passage },
    {
      rpm: known.rpm,
      durationDeg: exhaustDuration.value,
      gasTemperature: handbookGasTemperature(HANDBOOK_BMEP),
      proportions: PROPORTIONS,
    },
  );
  return `${[
    `# assumed, all of it: handbook proportions for ${known.rpm} rpm and ${exhaustDuration.value} deg of`,
    '# exhaust (Blair 1996, values from memory). Lengths along the axis from the',
    '# flange on, diameters inside. Of a pipe that exists, write what the tape says',
    '# outside: circumference: [130 mm, 270 mm], and sheet: 0.8 mm, once.',
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
