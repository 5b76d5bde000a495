/**
 * How far a long command is: a line that rewrites itself on a terminal, a plain line now and then anywhere else
 * for what takes hours, nothing with --quiet. The time left is estimated from the mean rate so far, so it is only given once a part is done.
 */

export interface ProgressSink {
  /** The line can be rewritten. */
  readonly live: boolean;
  readonly columns: number;
  /** Replaces the live line, or prints a plain one. */
  readonly show: (line: string) => void;
  /** Removes the live line. */
  readonly clear: () => void;
}

export interface Progress {
  /** So much of the total is done; parts count, and a note ends the line. */
  advance(done: number, note?: string): void;
  finish(): void;
}

/** Least time between two lines [ms]. */
const LIVE_INTERVAL = 100;
const PLAIN_INTERVAL = 30_000;

export interface ProgressSubject {
  /** What is being done, `sweep`. */
  readonly label: string;
  /** What is counted, `speeds`. */
  readonly things: string;
  readonly total: number;
  /** Done before this run began, in a resumed study: counts as done, but says nothing of the rate. */
  readonly before?: number;
}

/** Follows a subject; `clock` gives the time [ms]. */
export function progressOf(
  sink: ProgressSink,
  subject: ProgressSubject,
  clock: () => number = () => performance.now(),
): Progress {
  const { label, things, total, before = 0 } = subject;
  const interval = sink.live ? LIVE_INTERVAL : PLAIN_INTERVAL;
  const start = clock();
  let shownAt = sink.live ? Number.NEGATIVE_INFINITY : start;
  return {
    advance(done, note) {
      const now = clock();
      if (now - shownAt < interval && !(sink.live && done >= total)) return;
      shownAt = now;
      const rate = (done - before) / (now - start);
      const left = rate > 0 && done < total ? `, about ${durationText((total - done) / rate)} left` : '';
      const share = total > 0 ? Math.floor((100 * done) / total) : 100;
      const tail = note === undefined ? '' : `; ${note}`;
      sink.show(`${label}: ${Math.floor(done)} of ${total} ${things} (${share} %)${left}${tail}`);
    },
    finish() {
      sink.clear();
    },
  };
}

/** A span of time [ms] as a person says it. */
export function durationText(milliseconds: number): string {
  const seconds = milliseconds / 1000;
  if (seconds < 1) return 'a second';
  if (seconds < 90) return `${Math.round(seconds)} s`;
  const minutes = seconds / 60;
  if (minutes < 90) return `${Math.round(minutes)} min`;
  const hours = Math.floor(minutes / 60);
  return hours < 48 ? `${hours} h ${Math.round(minutes % 60)} min` : `${Math.round(hours / 24)} days`;
}
