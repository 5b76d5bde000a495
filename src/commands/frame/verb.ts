/**
 * What a verb of the command line is: its words of help, its flags, and the file that does it, loaded only when the
 * verb runs so that `--help` stays quick.
 */

import type { ExitCode } from './exit-codes.ts';
import type { Flags, VerbFlag } from './flags.ts';
import type { Terminal } from './terminal.ts';

/** What a command file gets. */
export interface Invocation {
  readonly verb: string;
  /** Files named on the command line. */
  readonly files: readonly string[];
  readonly flags: Flags;
  readonly terminal: Terminal;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
  /** Name and version, `echocone 0.1.0`. */
  readonly program: string;
}

/** What a command file exports. Nothing returned means done. */
export interface Command {
  run(invocation: Invocation): Promise<ExitCode | undefined> | Promise<void>;
}

export interface Verb {
  readonly name: string;
  /** As commander writes it, `<case>` or `<case...>`; empty for none. */
  readonly operands: string;
  /** One line. */
  readonly summary: string;
  /** Some lines more, for the verb's own help. */
  readonly description: string;
  readonly flags: readonly VerbFlag[];
  /** Common flags that cannot do anything here, and why: refused. */
  readonly without?: Partial<Readonly<Record<keyof Flags, string>>>;
  /** Works on one thread: --threads is taken, for scripts that always give it, and not shown. */
  readonly oneThread?: boolean;
  /** May take hours: says now and then how far it is where the line cannot be rewritten. */
  readonly long?: boolean;
  /** Finishes what it is at after Ctrl-C, as others wait for it; a second Ctrl-C ends at once. */
  readonly finishesFirst?: boolean;
  /** Two commands that run as they stand. */
  readonly examples: readonly [string, string];
  /** How to go on after Ctrl-C. */
  readonly afterInterrupt: string;
}
