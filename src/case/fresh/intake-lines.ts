/** The intake of a first case: a tract from the open air, and a reed, a piston port or a disc. Sizes: common practice, no source. */

import { areaOf } from '../../pipe/circle.ts';
import { crankOf, pistonTravel } from '../../timing/crank.ts';
import type { Dimensions } from './dimensions.ts';
import { line, mm, mm2, statedLine } from './lines.ts';

const CALLIPER = 'calliper';

/** Lines of `intake:`. */
export function intakeLines(sizes: Dimensions): readonly string[] {
  const { intake } = sizes.known;
  const own = { reed: reedLines, pistonPort: pistonPortLines, disc: discLines }[intake];
  return ['intake:', `  ${intake}:`, ...tractLines(sizes), ...own(sizes)];
}

function tractLines({ carburettor, known }: Dimensions): readonly string[] {
  const bore = carburettor.value;
  const stub = known.intake === 'disc' ? 0.8 : 2.5;
  return [
    '    tract:                         # from the open air inwards, along the middle',
    line(
      `      - { name: mouth, length: ${mm(0.6 * bore, 0)}, diameter: [${mm(1.25 * bore)}, ${mm(bore)}] }`,
      'bell',
      'usual',
    ),
    statedLine(
      `      - { name: carburettor, length: ${mm(2.4 * bore, 0)}, diameter: ${mm(bore)} }`,
      carburettor,
      'bore at the slide; its length is assumed',
    ),
    line(
      `      - { name: stub, length: ${mm(stub * bore, 0)}, to: ${mm(1.05 * bore)} }`,
      'carburettor to the valve, mean bore',
      'usual',
    ),
  ];
}

function reedLines({ known: { bore }, carburettor }: Dimensions): readonly string[] {
  const count = bore < 0.046 ? 4 : bore < 0.062 ? 6 : 8;
  return [
    '    petals:',
    line(`      count: ${count}`, 'count them', 'usual'),
    line(`      width: ${mm(0.37 * bore)}`, CALLIPER, '0.37 of the bore'),
    line(`      length: ${mm(0.65 * bore)}`, 'free length, clamp to tip', '0.65 of the bore'),
    line(`      thickness: ${mm(0.0078 * bore, 2)}`, 'micrometer', 'glass fibre'),
    line(`      stop: ${mm(0.16 * bore)}`, 'lift of the tip when it lies on its stop', 'usual'),
    line(
      `    cageArea: ${mm2(1.4 * areaOf(carburettor.value))}`,
      'all openings of the cage together',
      '1.4 carburettors',
    ),
  ];
}

/** Why a value was assumed; empty for one that is known. */
function unlessKnown(value: number | undefined, why = 'usual'): string {
  return value === undefined ? why : '';
}

function pistonPortLines(sizes: Dimensions): readonly string[] {
  const { bore, stroke, intakeDuration } = sizes.known;
  const usual = Math.round(Math.min(200, Math.max(140, 150 + 4.5 * (sizes.pistonSpeed - 12))));
  const duration = intakeDuration ?? usual;
  const crank = crankOf({ stroke, rod: sizes.rod.value, pinOffset: 0 });
  // Fully open at top dead centre: as high as the skirt clears, and no higher than barrels have room for.
  const height = Math.min(pistonTravel(crank, duration / 2), 0.45 * stroke);
  return [
    line(
      `    duration: ${duration} deg`,
      'degree wheel: skirt frees its floor to skirt covers it',
      unlessKnown(intakeDuration),
    ),
    line(`    width: ${mm(0.6 * bore)}`, 'straight across', '0.6 of the bore'),
    line(`    height: ${mm(height)}`, 'from its roof to its floor', 'open at top dead centre'),
    line(`    corners: ${mm(0.06 * bore)}`, 'pencil rubbing on paper laid in the bore', 'usual'),
  ];
}

function discLines({ pistonSpeed, carburettor, known }: Dimensions): readonly string[] {
  const { discOpens: opens = -140, discCloses } = known;
  const usual = Math.round(Math.min(85, Math.max(50, 55 + 2.5 * (pistonSpeed - 12))));
  return [
    line(
      `    opens: ${opens} deg`,
      'degree wheel; before top dead centre is negative',
      unlessKnown(known.discOpens),
    ),
    line(
      `    closes: ${discCloses ?? usual} deg`,
      'degree wheel, after top dead centre',
      unlessKnown(discCloses, 'usual for the speed'),
    ),
    line(`    area: ${mm2(areaOf(carburettor.value))}`, 'window, fully open', 'one carburettor'),
  ];
}
