/** What a reader of a pulse should know: what the model took for granted, and what did not go as it should. */

import type { Pulse } from '../../model/pulse.ts';
import { EXHAUST_OF, endCorrection, type Rig } from './rig.ts';

export function notesOf(pulse: Pulse, rig: Rig): readonly string[] {
  const { sections, leftEnd, rightEnd } = pulse;
  const notes: string[] = [];
  const corrections = [
    ['left', endCorrection(leftEnd, sections[0]!.diameter[0])],
    ['right', endCorrection(rightEnd, sections.at(-1)!.diameter[1])],
  ] as const;
  for (const [side, length] of corrections) {
    if (length > 0)
      notes.push(
        `The open ${side} end is computed ${(length * 1000).toFixed(1)} mm further out: its end correction.`,
      );
  }
  if (pulse.gas.kind === 'exhaust') {
    const { hydrogenCarbonRatio, equivalenceRatio } = EXHAUST_OF;
    notes.push(
      `All gas, that outside included, is burnt gas of CH${hydrogenCarbonRatio} at equivalence ratio ${equivalenceRatio}.`,
    );
  }
  if ([leftEnd, rightEnd].some(({ kind }) => kind === 'nozzle' || kind === 'vessel'))
    notes.push('The discharge coefficient of nozzles and openings is 1: their diameters are effective ones.');
  if (rig.stretches.length > 1)
    notes.push(
      'At a jump of area: Borda-Carnot loss into the wider duct, a sharp-edged vena contracta into the narrower.',
    );
  if (pulse.scheme === 'mesh')
    notes.push(
      'The mesh scheme does not keep mass and energy across a shock; the second opinion that does is finite-volume.',
    );
  if (pulse.scheme === 'mesh' && pulse.mixing > 0)
    notes.push('The mesh scheme does not mix gas along the duct: walls.mixing counts for nothing here.');
  const { rejected } = rig.network.ledger;
  if (rejected > 0) notes.push(`${rejected} steps had to be taken again, smaller.`);
  const coarse = rig.stretches.filter(({ duct }) => duct.geometry.dx < 0.95 * pulse.cell);
  for (const { duct } of coarse)
    notes.push(
      `Duct "${duct.name}" is short: its cells are ${(duct.geometry.dx * 1000).toFixed(2)} mm, smaller than asked for.`,
    );
  return notes;
}
