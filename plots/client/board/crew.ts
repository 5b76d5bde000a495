/**
 * Workers made of the page's own script, as a page opened from disk has to make them. Jobs wait in order; a job is made when
 * a worker is free for it, with what is known then. What waits can be dropped, what runs can be broken off.
 */

import type { BoardJob, BoardResult } from '../../../src/board/board-jobs.ts';
import type { BoardCase } from '../../../src/board/desk.ts';

/** To a worker: first the case, then one job after another. */
export type ToWorker = { readonly carried: BoardCase } | { readonly id: number; readonly job: BoardJob };

export type FromWorker =
  | { readonly id: number; readonly ok: true; readonly value: BoardResult<BoardJob['kind']> }
  | { readonly id: number; readonly ok: false; readonly message: string };

interface Waiting {
  readonly make: () => BoardJob;
  readonly done: (value: BoardResult<BoardJob['kind']>) => void;
  readonly failed: (message: string) => void;
}

interface Hand {
  worker: Worker;
  busy: Waiting | null;
}

export class Crew {
  readonly #script: string;
  readonly #carried: BoardCase;
  readonly #hands: Hand[];
  #queue: Waiting[] = [];
  #ids = 0;

  /** `script` is the address of the script that workers run. */
  constructor(script: string, carried: BoardCase, count: number) {
    this.#script = script;
    this.#carried = carried;
    this.#hands = Array.from({ length: count }, () => ({ worker: this.#hire(), busy: null }));
    for (const hand of this.#hands) this.#listen(hand);
  }

  get idle(): boolean {
    return this.#queue.length === 0 && this.#hands.every(({ busy }) => busy === null);
  }

  /** Puts a job behind those that wait; `failed` hears of a job that ended without an answer, not of one broken off. */
  do<Kind extends BoardJob['kind']>(
    make: () => BoardJob & { readonly kind: Kind },
    done: (value: BoardResult<Kind>) => void,
    failed: (message: string) => void,
  ): void {
    this.#queue.push({ make, done: done as Waiting['done'], failed });
    this.#next();
  }

  /** Forgets what waits; what runs goes on to its end. */
  drop(): void {
    this.#queue = [];
  }

  /** Forgets what waits and breaks off what runs. */
  breakOff(): void {
    this.drop();
    for (const hand of this.#hands) {
      if (hand.busy === null) continue;
      hand.worker.terminate();
      hand.busy = null;
      hand.worker = this.#hire();
      this.#listen(hand);
    }
  }

  #hire(): Worker {
    const worker = new Worker(this.#script);
    worker.postMessage({ carried: this.#carried } satisfies ToWorker);
    return worker;
  }

  #listen(hand: Hand): void {
    const { worker } = hand;
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (hand.worker !== worker) return;
      const { busy } = hand;
      hand.busy = null;
      if (data.ok) busy?.done(data.value);
      else busy?.failed(data.message);
      this.#next();
    };
  }

  #next(): void {
    const hand = this.#hands.find(({ busy }) => busy === null);
    if (hand === undefined) return;
    const waiting = this.#queue.shift();
    if (waiting === undefined) return;
    hand.busy = waiting;
    hand.worker.postMessage({ id: this.#ids++, job: waiting.make() } satisfies ToWorker);
    this.#next();
  }
}
