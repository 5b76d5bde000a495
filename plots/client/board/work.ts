/** A worker's side: the case comes first, then jobs, each answered or told why it was not. */

import { BoardBench } from '../../../src/board/board-jobs.ts';
import type { FromWorker, ToWorker } from './crew.ts';

/** As much of a worker's own scope as is used. */
interface Scope {
  onmessage: ((event: { readonly data: ToWorker }) => void) | null;
  postMessage(message: FromWorker): void;
}

export function work(scope: Scope): void {
  let bench: BoardBench | null = null;
  scope.onmessage = ({ data }) => {
    if ('carried' in data) {
      bench = new BoardBench(data.carried);
      return;
    }
    const { id, job } = data;
    try {
      if (bench === null) throw new Error('a job came before the case');
      scope.postMessage({ id, ok: true, value: bench.run(job) });
    } catch (error) {
      scope.postMessage({ id, ok: false, message: error instanceof Error ? error.message : String(error) });
    }
  };
}
