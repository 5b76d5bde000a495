/** Runs a verb: its flags, its terminal, Ctrl-C, and how it ended as an exit code. */

import { type ExitCode, errorText, exitCodeOf, exitCodes, UsageError } from './exit-codes.ts';
import { commanderOption, commonFlags, flagsOf } from './flags.ts';
import { unlockFolders } from './folder-lock.ts';
import { interruptionSignal } from './interruption.ts';
import { terminalOf } from './terminal.ts';
import type { Command, Verb } from './verb.ts';
import { programVersion } from './version.ts';

/** Runs a verb with its files and flags as commander read them; errors become messages and exit codes. */
export async function runVerb(
  verb: Verb,
  load: () => Promise<Command>,
  files: readonly string[],
  given: Readonly<Record<string, unknown>>,
): Promise<ExitCode> {
  const flags = flagsOf(given, [...verb.flags, ...commonFlags]);
  const terminal = terminalOf({
    stdout: process.stdout,
    stderr: process.stderr,
    environment: process.env,
    quiet: flags.quiet,
    plainProgress: verb.long === true,
  });
  const interrupted = `Interrupted. ${verb.afterInterrupt}`;
  const { signal, release } = interruptionSignal(terminal.warning, {
    finishesFirst: verb.finishesFirst === true,
    last: interrupted,
  });
  try {
    refuseIdle(verb, given);
    const command = await load();
    const program = `echocone ${programVersion()}`;
    const code = await command.run({ verb: verb.name, files, flags, terminal, signal, program });
    signal.throwIfAborted();
    return code ?? exitCodes.done;
  } catch (error) {
    const code = exitCodeOf(error);
    const onward = code === exitCodes.fault ? ` ${verb.afterInterrupt}` : '';
    terminal.warning(code === exitCodes.interrupted ? interrupted : errorText(error) + onward);
    return code;
  } finally {
    release();
    unlockFolders();
  }
}

/** @throws UsageError where a flag was given that cannot do anything */
function refuseIdle({ name, without = {} }: Verb, given: Readonly<Record<string, unknown>>): void {
  for (const flag of commonFlags) {
    const why = without[flag.member];
    const option = commanderOption(flag);
    if (why !== undefined && given[option.attributeName()] !== undefined)
      throw new UsageError(`${option.long ?? ''} means nothing to ${name}: ${why}.`);
  }
}
