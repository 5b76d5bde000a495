/** Flags of the command line: those that every verb takes, and those of single verbs. Each is declared once, here. */

import { availableParallelism } from 'node:os';
import { InvalidArgumentError, Option } from 'commander';
import type { Known } from '../../model/known-engine.ts';
import { aimFlags } from './aim-flags.ts';
import { bandFlags } from './band-flags.ts';
import { UsageError } from './exit-codes.ts';
import {
  anglesFlag,
  bandFlag,
  countFlag,
  lengthWithin,
  overrideFlag,
  sizeFlag,
  speedsFlag,
  threadsFlag,
} from './flag-values.ts';
import { knownFlags } from './new-flags.ts';

export interface Flags {
  /** What is known of a new engine. */
  readonly known: Partial<Known>;
  readonly out?: string;
  readonly json: boolean;
  readonly threads: number;
  /** Cell length [m]. */
  readonly cell?: number;
  readonly quiet: boolean;
  readonly overwrite: boolean;
  /** Overrides `path=value` of the case file, as written. */
  readonly set: readonly string[];
  /** Speeds to run [rpm]. */
  readonly speeds?: readonly number[];
  /** Target speed [rpm]. */
  readonly target?: number;
  /** Exhaust durations [deg]. */
  readonly durations?: readonly number[];
  /** Speeds between which torque is averaged [rpm]. */
  readonly band?: { readonly from: number; readonly to: number };
  /** What a single case is held against. */
  readonly against?: string;
  /** Find how far assumed inputs move the answer. */
  readonly moves?: boolean;
  /** Members to draw for bands. */
  readonly bands?: number;
  /** File of members in place of drawn ones. */
  readonly members?: string;
  /** Compute changes to advise; `--no-advice` makes it false. */
  readonly advice?: boolean;
  /** What aiming starts from. */
  readonly from: string;
  /** Paths of the quantities that aiming moves. */
  readonly vary: readonly string[];
  /** Constraints `path=value`, as written. */
  readonly limits: readonly string[];
  /** What lies beyond rules of thumb costs; `--no-rules` makes it false. */
  readonly rules?: boolean;
  /** Drafts that aiming runs at most. */
  readonly mostDrafts: number;
  /** Members that are drawn. */
  readonly count?: number;
  /** Address of a queue's server. */
  readonly over?: string;
  /** Take everything of the study off the server. */
  readonly cancel?: boolean;
  /** Sheet thickness [m]; absent: the pipe's, or what is usual. */
  readonly thickness?: number;
  /** Allowances along a seam and along a joint of two parts [m]. */
  readonly seam: number;
  readonly joint: number;
  /** Between edges to be welded, and by how much a weld draws them together [m]. */
  readonly rootGap: number;
  readonly shrinkage: number;
  /** Width and height of the sheet [mm]. */
  readonly sheet: { readonly width: number; readonly height: number };
  readonly material: 'steel' | 'stainless' | 'titanium' | 'aluminium';
  /** Also draw the flat halves for hydroforming. */
  readonly hydroform?: boolean;
}

/** A flag: how it is written, what it says of itself, and which member of `Flags` it fills. */
export interface VerbFlag {
  readonly member: keyof Flags | keyof Known;
  readonly syntax: string;
  readonly help: string;
  readonly read?: (text: string) => unknown;
  readonly required?: boolean;
  /** May be given several times. */
  readonly repeatable?: boolean;
  /** The words it takes. */
  readonly words?: readonly string[];
  /** What it is where its value, which may be left out, is left out. */
  readonly preset?: string;
}

/** A flag that every verb takes. */
export type CommonFlag = VerbFlag & { readonly member: keyof Flags };

export const commonFlags: readonly CommonFlag[] = [
  { member: 'out', syntax: '--out <folder>', help: 'folder to write into (default: runs/<name>-<time>)' },
  { member: 'overwrite', syntax: '--overwrite', help: 'replace files of an earlier run in that folder' },
  { member: 'json', syntax: '--json', help: 'one JSON document on stdout instead of the table' },
  {
    member: 'threads',
    syntax: '--threads <n>',
    help: 'worker threads (default: all cores)',
    read: threadsFlag,
  },
  {
    member: 'cell',
    syntax: '--cell <length>',
    help: 'cell length of the mesh, such as 5mm',
    read: lengthWithin('0.1mm', '50mm', ', as in case files'),
  },
  {
    member: 'set',
    syntax: '--set <path=value>',
    help: 'put a value in place of the one in the file; repeatable',
    read: overrideFlag,
    repeatable: true,
  },
  { member: 'quiet', syntax: '--quiet', help: 'no progress and no messages, only warnings' },
];

export const verbFlags = {
  speeds: {
    member: 'speeds',
    syntax: '--rpm <from:to:step>',
    help: 'speeds to run, such as 6000:12000:250 (default: those of the case)',
    read: speedsFlag,
  },
  durations: {
    member: 'durations',
    syntax: '--duration <from:to:step>',
    help: 'exhaust durations in degrees, such as 184:200:2',
    read: anglesFlag,
  },
  band: {
    member: 'band',
    syntax: '--band <from:to>',
    help: 'speeds to average the torque over (default: the target and 1000 rpm either side)',
    read: bandFlag,
  },
  against: {
    member: 'against',
    syntax: '--against <what>',
    help: 'with one case and --set: "base", the case without what --set changes, is swept beside it',
    words: ['base'],
  },
  moves: {
    member: 'moves',
    syntax: '--moves',
    help: 'also find how far assumed inputs, weather and mixture move the answer; takes a while',
  },
  noAdvice: {
    member: 'advice',
    syntax: '--no-advice',
    help: 'do not compute changes to advise, which takes up to a third of the time on top',
  },
  count: {
    member: 'count',
    syntax: '--count <n>',
    help: 'members to draw over the ranges of what is uncertain (default: 64)',
    read: countFlag,
  },
  ...aimFlags,
  ...bandFlags,
  over: {
    member: 'over',
    syntax: '--over <address>',
    help: 'have lenders compute, over a queue: redis://host:6379, rediss:// for TLS; the password by ECHOCONE_QUEUE_PASSWORD',
  },
  server: {
    member: 'over',
    syntax: '--over <address>',
    help: 'server of the queue: redis://host:6379, rediss:// for TLS; the password by ECHOCONE_QUEUE_PASSWORD',
    required: true,
  },
  cancel: {
    member: 'cancel',
    syntax: '--cancel',
    help: 'with --over: take all that this study put on the server away again; its journal stays',
  },
  thickness: {
    member: 'thickness',
    syntax: '--thickness <length>',
    help: "sheet thickness (default: the pipe's sheet, or 0.8mm)",
    read: lengthWithin('0mm', '6mm', ': thicker sheet is not rolled into cones of a pipe'),
  },
  seam: {
    member: 'seam',
    syntax: '--seam <length>',
    help: 'allowance added along one straight edge (default: 0mm)',
    read: lengthWithin('0mm', '50mm', ': a lap seam takes some millimetres'),
  },
  joint: {
    member: 'joint',
    syntax: '--joint <length>',
    help: 'allowance added along the downstream edge, where a part follows (default: 0mm)',
    read: lengthWithin('0mm', '50mm', ': a lap takes some millimetres'),
  },
  rootGap: {
    member: 'rootGap',
    syntax: '--root-gap <length>',
    help: 'gap left between edges that are welded, taken off the blanks (default: 0mm)',
    read: lengthWithin('0mm', '3mm', ': thin sheet is welded with hardly a gap'),
  },
  shrinkage: {
    member: 'shrinkage',
    syntax: '--shrinkage <length>',
    help: 'what a weld draws together across itself, added to the blanks (default: 0mm)',
    read: lengthWithin('0mm', '3mm', ': thin sheet draws some tenths of a millimetre'),
  },
  sheet: {
    member: 'sheet',
    syntax: '--sheet <size>',
    help: 'size of the sheet to cut from (default: 2000x1000mm)',
    read: sizeFlag,
  },
  material: {
    member: 'material',
    syntax: '--material <name>',
    help: 'what the sheet is of, for masses (default: steel)',
    words: ['steel', 'stainless', 'titanium', 'aluminium'],
  },
  hydroform: {
    member: 'hydroform',
    syntax: '--hydroform',
    help: 'also draw the flat halves of a pipe that is blown up from two sheets (an approximation)',
  },
} as const satisfies Readonly<Record<string, VerbFlag>>;

/** The flag as commander wants it. */
export function commanderOption(flag: VerbFlag): Option {
  const option = new Option(flag.syntax, flag.help);
  if (flag.required === true) option.makeOptionMandatory();
  if (flag.words !== undefined) option.choices(flag.words);
  if (flag.preset !== undefined) option.preset(flag.preset);
  const { read } = flag;
  if (flag.repeatable === true) {
    option.argParser((text: string, before: readonly unknown[] = []) => [
      ...before,
      read === undefined ? text : reading(read, text),
    ]);
  } else if (read !== undefined) {
    option.argParser((text: string) => reading(read, text));
  }
  return option;
}

/** The flags that were given, completed by defaults. */
export function flagsOf(given: Readonly<Record<string, unknown>>, declared: readonly VerbFlag[]): Flags {
  const flags: Record<string, unknown> = {
    json: false,
    quiet: false,
    overwrite: false,
    threads: availableParallelism(),
    set: [],
    from: 'better',
    vary: [],
    limits: [],
    mostDrafts: 240,
    seam: 0,
    joint: 0,
    rootGap: 0,
    shrinkage: 0,
    sheet: { width: 2000, height: 1000 },
    material: 'steel',
  };
  for (const flag of declared) {
    const value = given[new Option(flag.syntax).attributeName()];
    if (value !== undefined) flags[flag.member] = value;
  }
  const known = knownFlags.filter(({ member }) => flags[member] !== undefined);
  flags.known = Object.fromEntries(known.map(({ member }) => [member, flags[member]]));
  return flags as unknown as Flags;
}

/** Commander prints this error's message after the flag's name. */
function reading<T>(read: (text: string) => T, text: string): T {
  try {
    return read(text);
  } catch (error) {
    if (error instanceof UsageError) throw new InvalidArgumentError(error.message);
    throw error;
  }
}
