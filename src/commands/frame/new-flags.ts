/** Flags of `new`: what is known of an engine. Each is also a question on a terminal, with how it is measured. */

import { INTAKES, type IntakeWord, type Known } from '../../model/known-engine.ts';
import { UsageError } from './exit-codes.ts';
import { lengthWithin, speedFlag } from './flag-values.ts';

/** A number within limits, with or without its unit. */
function numberWithin(least: number, most: number, unit: string): (text: string) => number {
  return (text) => {
    const bare = text.trim().replace(new RegExp(`\\s*${unit}$`), '');
    const value = /^[+-]?\d+(?:\.\d+)?$/.test(bare) ? Number(bare) : Number.NaN;
    if (value >= least && value <= most) return value;
    throw new UsageError(
      `"${text}" must be a number from ${least} to ${most}${unit === '' ? '' : ` ${unit}`}.`,
    );
  };
}

function intakeWord(text: string): IntakeWord {
  const word = INTAKES.find((one) => one.toLowerCase() === text.trim().toLowerCase().replaceAll(/[ -]/g, ''));
  if (word !== undefined) return word;
  throw new UsageError(`"${text}" must be one of ${INTAKES.join(', ')}.`);
}

export interface KnownFlag {
  readonly member: Exclude<keyof Known, 'name'>;
  readonly syntax: string;
  readonly help: string;
  readonly read: (text: string) => unknown;
  /** Has to be known. */
  readonly needed?: boolean;
  /** What is asked on a terminal, with the unit that a bare number is taken in. */
  readonly question: string;
  /** Whether it is asked, of what is known by then; a sort of intake has questions of its own. */
  readonly asked?: (known: Partial<Known>) => boolean;
}

export const knownFlags: readonly KnownFlag[] = [
  {
    member: 'intake',
    syntax: '--intake <sort>',
    help: 'reed, pistonPort or disc',
    read: intakeWord,
    needed: true,
    question: 'Intake: reed, pistonPort or disc',
  },
  {
    member: 'bore',
    syntax: '--bore <length>',
    help: 'bore of the cylinder',
    read: lengthWithin('15mm', '150mm'),
    needed: true,
    question: 'Bore [mm]',
  },
  {
    member: 'stroke',
    syntax: '--stroke <length>',
    help: 'stroke, twice the throw',
    read: lengthWithin('15mm', '150mm'),
    needed: true,
    question: 'Stroke [mm]',
  },
  {
    member: 'rpm',
    syntax: '--rpm <speed>',
    help: 'speed the pipe is meant for',
    read: speedFlag,
    needed: true,
    question: 'Speed the pipe is meant for [rpm]',
  },
  {
    member: 'rod',
    syntax: '--rod <length>',
    help: 'rod between its centres (assumed: two strokes)',
    read: lengthWithin('20mm', '400mm'),
    question: 'Rod between its centres [mm]',
  },
  {
    member: 'exhaustDuration',
    syntax: '--exhaust-duration <angle>',
    help: 'crank angle for which the exhaust is open',
    read: numberWithin(120, 230, 'deg'),
    question: 'Exhaust open, by degree wheel [deg]',
  },
  {
    member: 'transferDuration',
    syntax: '--transfer-duration <angle>',
    help: 'crank angle for which the transfers are open',
    read: numberWithin(80, 160, 'deg'),
    question: 'Transfers open, by degree wheel [deg]',
  },
  {
    member: 'exhaustWidth',
    syntax: '--exhaust-width <length>',
    help: 'width of the exhaust window, straight across',
    read: lengthWithin('5mm', '120mm'),
    question: 'Width of the exhaust window, straight across [mm]',
  },
  {
    member: 'passageLength',
    syntax: '--passage-length <length>',
    help: 'exhaust duct from the bore to the flange',
    read: lengthWithin('5mm', '300mm'),
    question: 'Exhaust duct along its middle, from bore to flange [mm]',
  },
  {
    member: 'flange',
    syntax: '--flange <length>',
    help: 'inside diameter of the duct at the flange',
    read: lengthWithin('10mm', '100mm'),
    question: 'Inside diameter at the flange [mm]',
  },
  {
    member: 'carburettor',
    syntax: '--carburettor <length>',
    help: 'bore of the carburettor',
    read: lengthWithin('8mm', '80mm'),
    question: 'Bore of the carburettor [mm]',
  },
  {
    member: 'trapped',
    syntax: '--trapped <ratio>',
    help: 'compression ratio from exhaust closing on',
    read: numberWithin(3, 15, ''),
    question: 'Compression ratio from exhaust closing on, such as 7',
  },
  {
    member: 'full',
    syntax: '--full <ratio>',
    help: 'in its place: compression ratio over the full stroke',
    read: numberWithin(4, 30, ''),
    question: 'Or that over the full stroke, such as 13',
    asked: ({ trapped }) => trapped === undefined,
  },
  {
    member: 'intakeDuration',
    syntax: '--intake-duration <angle>',
    help: 'piston port: crank angle for which it is open',
    read: numberWithin(80, 240, 'deg'),
    question: 'Intake open, by degree wheel [deg]',
    asked: ({ intake }) => intake === 'pistonPort',
  },
  {
    member: 'discOpens',
    syntax: '--disc-opens <angle>',
    help: 'disc: opens; before top dead centre is negative',
    read: numberWithin(-200, -60, 'deg'),
    question: 'Disc opens, before top dead centre, so negative, such as -140 [deg]',
    asked: ({ intake }) => intake === 'disc',
  },
  {
    member: 'discCloses',
    syntax: '--disc-closes <angle>',
    help: 'disc: closes, after top dead centre',
    read: numberWithin(20, 130, 'deg'),
    question: 'Disc closes, after top dead centre, such as 75 [deg]',
    asked: ({ intake }) => intake === 'disc',
  },
];

/** What a rod, a width or a port cannot be beside the rest. @throws UsageError */
export function fitting(known: Known): Known {
  const { bore, stroke, rod, exhaustWidth, exhaustDuration, transferDuration } = known;
  const mm = (length: number): string => `${Number((1000 * length).toFixed(2))} mm`;
  if (rod !== undefined && rod <= 0.75 * stroke)
    throw new UsageError(
      `A rod of ${mm(rod)} cannot turn a stroke of ${mm(stroke)}: it is some two strokes long.`,
    );
  if (exhaustWidth !== undefined && exhaustWidth >= bore)
    throw new UsageError(`An exhaust ${mm(exhaustWidth)} wide does not go into a bore of ${mm(bore)}.`);
  if ((transferDuration ?? 0) >= (exhaustDuration ?? 360))
    throw new UsageError('The transfers have to open after the exhaust: a shorter duration.');
  if (known.trapped !== undefined && known.full !== undefined)
    throw new UsageError('--trapped and --full say the same thing twice; keep one.');
  for (const { member, syntax, asked } of knownFlags)
    if (member !== 'full' && known[member] !== undefined && asked?.(known) === false)
      throw new UsageError(`${syntax.split(' ')[0]} means nothing to the intake ${known.intake}.`);
  return known;
}
