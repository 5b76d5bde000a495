/** `echocone new DIR`: a case, an engine and a pipe to start from, of what is known and what is usual. Never overwrites. */

import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { assumedIn, freshFiles } from '../case/fresh/fresh-files.ts';
import { caseOf, openFile } from '../case/load.ts';
import type { Known } from '../model/known-engine.ts';
import { FileError, UsageError } from './frame/exit-codes.ts';
import { folded } from './frame/folded.ts';
import { jsonText } from './frame/json.ts';
import { fitting, type KnownFlag, knownFlags } from './frame/new-flags.ts';
import { plainText } from './frame/plain-text.ts';
import { shellFile } from './frame/shell-word.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<void> {
  const folder = files[0]!;
  const paths = ['case.yaml', 'engine.yaml', 'pipe.yaml'].map((name) => join(folder, name));
  const there = paths.filter((path) => existsSync(path));
  if (there.length > 0)
    throw new FileError(`${there.join(', ')}: there already, and never overwritten. Name another folder.`);
  const given: Partial<Known> = flags.known;
  const missing = knownFlags.filter(({ member, needed }) => needed === true && given[member] === undefined);
  const asks = missing.length > 0 && process.stdin.isTTY === true && process.stderr.isTTY === true;
  if (missing.length > 0 && !asks) throw new UsageError(missingText(folder, missing));
  const answers = asks ? { ...(await asked(given, signal)), ...given } : given;
  const known = fitting({ name: plainText(basename(resolve(folder))), ...answers } as Known);
  const texts = Object.entries(freshFiles(known));
  mkdirSync(folder, { recursive: true });
  // "wx" fails on a file that came into being meanwhile.
  for (const [name, text] of texts) writeFileSync(join(folder, name), text, { flag: 'wx' });
  const { warnings } = caseOf(openFile(join(folder, 'case.yaml')), []);
  for (const warning of warnings) terminal.warning(plainText(warning));
  const assumed = texts.reduce((sum, [, text]) => sum + assumedIn(text), 0);
  if (flags.json) {
    terminal.answer(jsonText({ schemaVersion: 1, ...{ program, files: paths, known, assumed } }));
    return;
  }
  terminal.answer(folded(`Wrote ${paths.join(', ')}.`));
  terminal.answer(
    folded(
      `${assumed} values are marked "assumed" and yours to measure; those at the top of engine.yaml matter most.`,
    ),
  );
  terminal.message(`Next: ${typed()} check ${shellFile(paths[0] ?? '')}`);
}

function missingText(folder: string, missing: readonly KnownFlag[]): string {
  const names = missing.map(({ syntax }) => syntax).join(', ');
  return (
    `Still to be stated: ${names}.\nLike this: ${typed()} new ${shellFile(folder)} ` +
    '--intake reed --bore 54mm --stroke 54.5mm --rpm 10500\nOn a terminal it asks.'
  );
}

/** Asks for what no flag states; an empty answer is "not known", where that may be. */
async function asked(given: Partial<Known>, signal: AbortSignal): Promise<Partial<Known>> {
  const reader = createInterface({ input: process.stdin, output: process.stderr });
  const answers: Record<string, unknown> = {};
  try {
    for (const flag of knownFlags) {
      const known = { ...answers, ...given } as Partial<Known>;
      if (given[flag.member] === undefined && flag.asked?.(known) !== false)
        answers[flag.member] = await answerTo(flag, reader, signal);
    }
  } finally {
    reader.close();
  }
  return answers as Partial<Known>;
}

/** An answer in the unit that the question names, where it has none of its own; a comma in a number is a point. */
function withUnit(text: string, question: string): string {
  const unit = / \[(mm|deg|rpm)\]$/.exec(question)?.[1];
  const number = text.replace(/^([+-]?\d+),(\d)/, '$1.$2');
  return unit !== undefined && /^[+-]?\d+(?:\.\d+)?$/.test(number) ? `${number} ${unit}` : number;
}

async function answerTo(
  { question, read, needed }: KnownFlag,
  reader: ReturnType<typeof createInterface>,
  signal: AbortSignal,
): Promise<unknown> {
  for (;;) {
    const hint = needed === true ? '' : ' (Enter: not known)';
    const text = (await reader.question(`${question}${hint}: `, { signal })).trim();
    if (text === '' && needed !== true) return undefined;
    try {
      if (text === '') throw new UsageError('This has to be known.');
      return read(withUnit(text.replaceAll(/\s+/g, ' '), question));
    } catch (error) {
      if (!(error instanceof UsageError)) throw error;
      process.stderr.write(`  ${error.message}\n`);
    }
  }
}
