/**
 * The command line as a whole: verbs become commander's commands, errors become messages and exit codes. Misspelt
 * verbs and flags get the nearest known one as a suggestion.
 */

import { Command as CommanderCommand, CommanderError } from 'commander';
import { surviveClosedPipes } from './closed-pipes.ts';
import { type ExitCode, errorText, exitCodes } from './exit-codes.ts';
import { type CommonFlag, commanderOption, commonFlags } from './flags.ts';
import { spoken } from './spoken.ts';
import { typed } from './typed.ts';
import type { Command, Verb } from './verb.ts';
import { programVersion } from './version.ts';

/** A verb with the file that does it. */
export interface WiredVerb {
  readonly verb: Verb;
  readonly load: () => Promise<Command>;
}

/** A verb and where it is done. */
export function wired(verb: Verb, load: () => Promise<Command>): WiredVerb {
  return { verb, load };
}

const closing = `
Examples:
  echocone check cases/saltmarsh-125/draft-a.yaml
  echocone sweep cases/saltmarsh-125/draft-a.yaml --rpm 8000:12500:250

"echocone <verb> --help" shows a verb's flags and examples.
Exit codes: 0 done; 1 defect of the program; 2 wrong command line; 3 wrong case
file; 4 a speed failed or would not settle; 5 out of memory or another fault
that may pass; 6 file trouble; 130 interrupted.
`;

/** Reads the command line, runs the verb and sets the exit code of the process. */
export async function runProgram(verbs: readonly WiredVerb[], words: readonly string[]): Promise<void> {
  surviveClosedPipes([process.stdout, process.stderr], (error) => {
    process.stderr.write(`The output could not be written. ${errorText(error)}\n`);
    process.exit(exitCodes.file);
  });
  const program = new CommanderCommand('echocone')
    .description('When does the reflected wave come back? Gas dynamics of the two-stroke expansion chamber.')
    .usage('<verb> [flags]')
    .version(programVersion(), '--version', 'print the version')
    .helpOption('--help', 'print this help')
    .helpCommand('help [verb]', 'print help of a verb')
    .commandsGroup('Verbs:')
    .addHelpText(
      'after',
      typed() === 'echocone' ? closing : `${closing}Here "echocone" is typed as "${typed()}".\n`,
    )
    .configureHelp({
      helpWidth: 80,
      showGlobalOptions: false,
      // What a verb takes is in its own help.
      subcommandTerm: (verb) => verb.name(),
    })
    .configureOutput({ outputError: (text, write) => write(spoken(plainError(text))) })
    .exitOverride();
  let outcome: ExitCode = exitCodes.done;
  for (const { verb, load } of verbs) {
    const command = commanderCommand(verb).action(async () => {
      // Help has no need of it.
      const { runVerb } = await import('./run-verb.ts');
      outcome = await runVerb(verb, load, command.args, command.opts());
    });
    program.addCommand(command.copyInheritedSettings(program));
  }
  try {
    await program.parseAsync(words, { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    // Commander has printed its message. Help and version are no errors unless asked for by saying nothing.
    outcome = error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
  }
  process.exitCode = outcome;
}

function commanderCommand(verb: Verb): CommanderCommand {
  const command = new CommanderCommand(verb.name)
    .summary(verb.summary)
    .description(`${verb.summary}.\n\n${verb.description}`)
    .helpOption('--help', 'print this help')
    .addHelpText('after', `\nExamples:\n${verb.examples.map(exampleText).join('')}`);
  if (verb.operands !== '') command.arguments(verb.operands);
  if (verb.flags.length > 0) command.optionsGroup('Flags:');
  for (const flag of verb.flags) command.addOption(commanderOption(flag));
  command.optionsGroup('Common flags:');
  for (const flag of commonFlags) command.addOption(commanderOption(flag).hideHelp(!isShown(flag, verb)));
  return command;
}

function isShown({ member }: CommonFlag, { without, oneThread }: Verb): boolean {
  return without?.[member] === undefined && !(member === 'threads' && oneThread === true);
}

/** Commander's message without what it says twice. */
function plainError(text: string): string {
  return text.replace(/option '(--\S+)[^']*' argument '[^']*' is invalid\. /, '$1: ');
}

/** A command as one can paste it, over several lines if it is long; a flag and its value stay together. */
function exampleText(command: string): string {
  let text = '';
  let line = ' ';
  for (const word of command.match(/(?:--\S+ (?!--))?(?:[^\s"]|"[^"]*")+/g) ?? []) {
    if (line.length + word.length > 76) {
      text += `${line} \\\n`;
      line = '     ';
    }
    line += ` ${word}`;
  }
  return `${text}${line}\n`;
}
