/**
 * What a command prints, and where: answers to stdout, so that they can be piped; messages and progress to stderr.
 * Colour and the rewriting progress line only on a terminal, and no colour where NO_COLOR is set (no-color.org);
 * elsewhere what takes hours prints a plain line now and then, and the rest none. A reader that goes away (`| head`) ends
 * the printing, not the command.
 */

import { plainText, shortened } from './plain-text.ts';
import { type Progress, type ProgressSink, type ProgressSubject, progressOf } from './progress.ts';
import { spoken } from './spoken.ts';

export interface Output {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
  on?(event: 'error', listener: (error: NodeJS.ErrnoException) => void): unknown;
}

export interface Terminal {
  /** Colour may be used in answers. */
  readonly colour: boolean;
  /** Prints to stdout as it is; a line break is added if the text has none. */
  answer(text: string): void;
  /** Prints a message to stderr, unless --quiet. */
  message(text: string): void;
  /** Prints a caution or an error to stderr, also with --quiet. */
  warning(text: string): void;
  /** Follows something long on stderr. */
  progress(subject: ProgressSubject): Progress;
}

export interface TerminalSettings {
  readonly stdout: Output;
  readonly stderr: Output;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly quiet: boolean;
  /** Progress in plain lines where the line cannot be rewritten; otherwise none there. */
  readonly plainProgress?: boolean;
}

export function terminalOf(settings: TerminalSettings): Terminal {
  const { stdout, stderr, environment, quiet, plainProgress = false } = settings;
  const dumb = environment.TERM === 'dumb';
  const live = stderr.isTTY === true && !dumb;
  const noColour = environment.NO_COLOR !== undefined && environment.NO_COLOR !== '';
  let liveLine = '';

  const sink: ProgressSink = {
    live,
    columns: stderr.columns ?? 80,
    show(line) {
      if (quiet) return;
      const text = shortened(plainText(line), (stderr.columns ?? 80) - 1);
      if (!live) {
        if (plainProgress) stderr.write(`${spoken(plainText(line))}\n`);
        return;
      }
      liveLine = text;
      stderr.write(`\r\u001b[K${text}`);
    },
    clear() {
      if (liveLine !== '') stderr.write('\r\u001b[K');
      liveLine = '';
    },
  };
  // Anything else that is printed while the line stands pushes it down.
  const print = (output: Output, text: string): void => {
    const standing = liveLine;
    sink.clear();
    output.write(text.endsWith('\n') ? text : `${text}\n`);
    if (standing !== '') sink.show(standing);
  };

  return {
    colour: stdout.isTTY === true && !dumb && !noColour,
    answer: (text) => print(stdout, text),
    message: (text) => {
      if (!quiet) print(stderr, spoken(text));
    },
    warning: (text) => print(stderr, spoken(text)),
    progress: (subject) => progressOf(sink, subject),
  };
}
