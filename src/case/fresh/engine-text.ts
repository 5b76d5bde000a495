/** The engine file of a first case. Where a key has a default of its own it is shown, out of use, behind a comment sign. */

import type { Known } from '../../model/known-engine.ts';
import type { Dimensions } from './dimensions.ts';
import { intakeLines } from './intake-lines.ts';
import { line, mm, quotedText, statedLine } from './lines.ts';

export function engineText(sizes: Dimensions): string {
  const { known } = sizes;
  return `${[
    '# Search for "assumed": what is marked so was not measured and is yours to',
    '# replace, the nearer the top the sooner. Every length with its unit. A comment',
    '# stands behind its line or above it. More keys: echocone keys engine.',
    'kind: engine',
    `name: ${quotedText(known.name)}`,
    '',
    line(`bore: ${mm(known.bore, 2)}`, 'bore gauge or inside calliper'),
    line(`stroke: ${mm(known.stroke, 2)}`, 'depth gauge on the crown, top to bottom dead centre'),
    statedLine(`rod: ${mm(sizes.rod.value, 2)}`, sizes.rod, 'between the centres of its eyes'),
    known.full === undefined
      ? statedLine(
          `compression: { trapped: ${sizes.trapped.value} }`,
          sizes.trapped,
          'from exhaust closing on; or { full: 13 }, over all',
        )
      : line(`compression: { full: ${known.full} }`, 'over the full stroke; head filled with oil'),
    line('crownBelowDeck: 0 mm', 'depth gauge, crown at top dead centre below the top face', 'flush'),
    '',
    ...exhaustLines(sizes),
    '',
    ...transferLines(sizes),
    '',
    ...passageLines(sizes),
    '',
    line(
      'crankcase: { compression: 1.35 }',
      'or { volume: 500 cc }, by filling at bottom dead centre',
      'usual',
    ),
    '',
    ...intakeLines(sizes),
    '',
    '# In use as they stand here, all assumed. Take the sign away and write your own:',
    line('# combustion: { start: -14 deg }', 'heat release; some degrees after the spark', 'usual'),
    line('# fuel: { equivalenceRatio: 1.1 }', 'above 1 is rich. Leaner runs hot and can seize', 'usual'),
    line('# ambient: { pressure: 1.01325 bar, temperature: 15 degC }', 'not reduced to sea level', 'usual'),
  ].join('\n')}\n`;
}

const WHEEL = 'degree wheel, paper freed to nipped at the roof';
const ACROSS = 'straight across, calliper';

function exhaustLines({ known: { bore }, exhaustDuration, exhaustWidth }: Dimensions): readonly string[] {
  return [
    'exhaust:',
    '  windows:',
    '    - name: main',
    statedLine(`      width: ${mm(exhaustWidth.value)}`, exhaustWidth, ACROSS),
    statedLine(`      duration: ${exhaustDuration.value} deg`, exhaustDuration, WHEEL),
    line(
      `      corners: { top: ${mm(0.14 * bore)}, bottom: ${mm(0.16 * bore)} }`,
      'pencil rubbing on paper laid in the bore',
      'usual',
    ),
    line(`      arch: ${mm(0.035 * bore)}`, 'how much higher the roof is in its middle', 'usual'),
    line('      around: 0 deg', 'the middle of the exhaust is 0'),
  ];
}

/** Widths of a front and a rear transfer over the bore; without a boost port they have its share to carry. */
const widthsOf = ({ intake }: Known) =>
  intake === 'pistonPort' ? ([0.37, 0.32] as const) : ([0.33, 0.27] as const);

/** A port in the barrel's back goes to the intake where the piston opens that. */
function transferLines({ known, transferDuration, exhaustWidth }: Dimensions): readonly string[] {
  const { bore } = known;
  const [wide, narrow] = widthsOf(known);
  const degrees = (radians: number): number => Math.ceil((180 / Math.PI) * radians);
  // Beside the exhaust and a wall of an eighth of the bore; the rear one beside the front and a sixteenth.
  const beside = degrees(Math.asin(exhaustWidth.value / bore) + 2 * 0.125 + Math.asin(wide));
  const front = Math.min(90, Math.max(74, beside));
  const rear = front + Math.max(43, degrees(Math.asin(wide) + 2 * 0.0625 + Math.asin(narrow)));
  const window = (name: string, width: number, rest: string): readonly string[] => [
    `    - name: ${name}`,
    line(`      width: ${mm(width * bore)}`, ACROSS, `${width} of the bore`),
    statedLine(`      duration: ${transferDuration.value} deg`, transferDuration, WHEEL),
    ...rest.split('; ').map((text) => line(`      ${text}`, explained(text), 'usual')),
  ];
  const corners = `corners: ${mm(0.055 * bore)}`;
  return [
    'transfers:',
    '  windows:',
    ...window('front', wide, `count: 2; ${corners}; upAngle: 8 deg; around: ${front} deg`),
    ...window('rear', narrow, `count: 2; ${corners}; upAngle: 15 deg; around: ${rear} deg`),
    ...(known.intake === 'pistonPort'
      ? []
      : window('boost', 0.35, `${corners}; upAngle: 50 deg; around: 180 deg`)),
    line(
      `  passage: { length: ${mm(1.6 * bore, 0)} }`,
      'crankcase to window, soft wire along the middle',
      '1.6 bores',
    ),
    line(
      '  # or { length, entryArea, exitArea, as: duct }',
      'areas of all passages; they keep what is blown back',
    ),
  ];
}

function explained(text: string): string {
  if (text.startsWith('count')) return 'one on either side';
  if (text.startsWith('corners')) return 'pencil rubbing';
  if (text.startsWith('upAngle')) return 'of the stream above the level: wire in the duct';
  return 'of its middle from the middle of the exhaust';
}

function passageLines({ passageLength, flange }: Dimensions): readonly string[] {
  return [
    'passage:                           # the exhaust duct in the barrel',
    statedLine(
      `  length: ${mm(passageLength.value)}`,
      passageLength,
      'bore to flange, soft wire along the middle',
    ),
    statedLine(`  exitDiameter: ${mm(flange.value)}`, flange, 'at the flange'),
  ];
}
