/** Moved sections as changes of the case, with what goes along: the passage's exit is the pipe's beginning, and walls have places. */

import { writeQuantity } from '../case/text/units.ts';
import type { Case } from '../model/case.ts';
import type { Section } from '../model/section.ts';
import { sectionsText } from './sections.ts';
import { wallChange } from './wall.ts';

export type Changes = readonly (readonly [path: string, text: string])[];

export function editChanges(subject: Case, sections: readonly Section[]): Changes {
  const [was, is] = [subject.pipe.sections[0], sections[0]];
  const moved = was !== undefined && is !== undefined && was.diameter[0] !== is.diameter[0] && !is.step;
  return [
    ['pipe.sections', sectionsText(sections)],
    ...(moved
      ? ([['engine.passage.exitDiameter', writeQuantity(is.diameter[0], 'length', 'mm')]] as const)
      : []),
    ...wallChange(subject, sections),
  ];
}
