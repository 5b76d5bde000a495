/**
 * The draft on the board and how it came to be: what is tried is read at once and refused in words where it cannot be; what
 * the hand leaves is a step that can be undone. Stages are drafts kept by name.
 */

import { type Desk, readDesk } from '../../../src/board/desk.ts';
import type { Case } from '../../../src/model/case.ts';

/** Steps that can be undone at most, so that a long day takes no more memory than a short one. */
const MOST_STEPS = 200;
/** Stages kept at most. */
const MOST_STAGES = 8;

export interface Stage {
  readonly name: string;
  readonly set: readonly string[];
}

type Set = readonly string[];

const same = (a: Set, b: Set): boolean => a.length === b.length && a.every((text, k) => text === b[k]);

export class DraftHistory {
  readonly desk: Desk;
  readonly base: Case;
  subject: Case;
  set: Set;
  stages: readonly Stage[] = [];
  #settled: Set;
  #past: Set[] = [];
  #future: Set[] = [];

  /** @throws Error where the case itself cannot be read */
  constructor(desk: Desk) {
    const reading = readDesk(desk, desk.carried.set);
    if (!reading.ok) throw new Error(reading.words);
    this.desk = desk;
    this.base = reading.subject;
    this.subject = reading.subject;
    this.set = desk.carried.set;
    this.#settled = this.set;
  }

  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** Tries other changes: they are the draft from now on, or the reason why they cannot be comes back. */
  attempt(set: Set): string | null {
    const reading = readDesk(this.desk, set);
    if (!reading.ok) return reading.words;
    this.set = set;
    this.subject = reading.subject;
    return null;
  }

  /** What is on the board now is a step; false: it is the last one still. */
  settle(): boolean {
    if (same(this.set, this.#settled)) return false;
    this.#past.push(this.#settled);
    if (this.#past.length > MOST_STEPS) this.#past.shift();
    this.#future = [];
    this.#settled = this.set;
    return true;
  }

  undo(): boolean {
    return this.#step(this.#past, this.#future);
  }

  redo(): boolean {
    return this.#step(this.#future, this.#past);
  }

  /** Keeps the draft under a name; an old stage of that name gives way, and the oldest where there are many. */
  keep(name: string): void {
    const others = this.stages.filter((stage) => stage.name !== name);
    this.stages = [...others, { name, set: this.set }].slice(-MOST_STAGES);
  }

  forget(name: string): void {
    this.stages = this.stages.filter((stage) => stage.name !== name);
  }

  #step(from: Set[], to: Set[]): boolean {
    this.settle();
    const set = from.pop();
    if (set === undefined || this.attempt(set) !== null) return false;
    to.push(this.#settled);
    this.#settled = set;
    return true;
  }
}
