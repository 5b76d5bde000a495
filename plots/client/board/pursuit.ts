/**
 * The answer follows the hand. A change is previewed on coarse cells from the last fields, the chosen speed first, then its
 * neighbours outward; when all speeds stand and the hand rests, they are computed afresh as a sweep computes them, in the same
 * groups from the same starts, on the cells of studies and then on the case's own. What a later change makes out of date is
 * dropped, and broken off where it would take long. What is shown always says which it is.
 */

import type { BoardSpeed } from '../../../src/board/board-speed.ts';
import { PREVIEW_CELL } from '../../../src/board/preview.ts';
import type { EngineState } from '../../../src/engine/run/state.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import type { Case } from '../../../src/model/case.ts';
import type { Crew } from './crew.ts';
import { IdleWork } from './idle-work.ts';
import { type Answer, KeptAnswers, type KeptRows, keyOf, rowsOf } from './kept-answers.ts';
import { nearestTo } from './nearest-speed.ts';
import type { Listener, Progress } from './pursuit-listener.ts';
import { Refinement } from './refinement.ts';

/** Cells of studies [m]: taken before those of the case where these are at most half as long. */
const STUDY_CELL = 10e-3;
/** How long the hand has to rest before finer cells are worth while [ms]. */
const REST_MS = 250;

export class Pursuit {
  progress: Progress = 'computing';
  /** Number of the change that is pursued, and of the last one of which the chosen speed was answered. */
  revision = 0;
  answeredRevision = -1;
  readonly #warm: Crew;
  readonly #refinement: Refinement;
  readonly #listener: Listener;
  #set: readonly string[] = [];
  #subject: Case;
  #baseSet: readonly string[] = [];
  #chosen: number;
  #held = false;
  #rest: ReturnType<typeof setTimeout> | null = null;
  /** Fields of the last preview of each speed, and the draft that they are of. */
  readonly #fields = new Map<number, { readonly key: string; readonly state: EngineState }>();
  #fresh: { readonly speeds: Map<number, BoardSpeed>; readonly failures: Map<number, string> } = blank();
  #stale = new Map<number, BoardSpeed>();
  readonly #kept = new KeptAnswers();
  readonly #idle: IdleWork;
  #refined: Answer | null = null;

  constructor(crews: { readonly warm: Crew; readonly fine: Crew }, subject: Case, listener: Listener) {
    this.#warm = crews.warm;
    this.#refinement = new Refinement(crews.fine);
    this.#subject = subject;
    this.#listener = listener;
    this.#idle = new IdleWork(this.#refinement, this.#kept, () => {
      listener.answered();
      listener.kept();
    });
    this.#chosen = nearestTo(subject.run.speeds, subject.run.targetSpeed);
  }

  /** How far a finer mesh of this draft is; null: none is under way. */
  get refining(): Refinement['under'] {
    return this.progress === 'preview' ? this.#refinement.under : null;
  }

  get chosen(): number {
    return this.#chosen;
  }

  get previewCell(): number {
    return Math.max(PREVIEW_CELL, this.#subject.run.cell);
  }

  /** Takes up a change. The first one is the base that others are held against. */
  take(set: readonly string[], subject: Case): void {
    if (this.revision === 0) {
      this.#baseSet = set;
      this.#kept.base = keyOf(set);
    }
    this.revision++;
    this.#set = set;
    this.#subject = subject;
    if (!subject.run.speeds.includes(this.#chosen))
      this.#chosen = nearestTo(subject.run.speeds, this.#chosen);
    const known = [...this.#stale, ...this.shown.speeds];
    this.#stale = new Map(known.filter(([rpm]) => subject.run.speeds.includes(rpm)));
    this.#refined = null;
    this.#fresh = blank();
    this.#breakOff();
    const kept = this.#kept.at(keyOf(set), subject.run.cell);
    if (kept !== null) this.#show(kept);
    else this.#preview();
  }

  /** Another speed is looked at. */
  choose(rpm: number): void {
    this.#chosen = nearestTo(this.#subject.run.speeds, rpm);
    this.#turn();
    this.#listener.answered();
  }

  /** The hand is on something; nothing long is begun. */
  hold(held: boolean): void {
    this.#held = held;
    if (!held && this.progress === 'preview') this.#rested();
  }

  /** The answer as it is shown: refined, or the preview as far as it goes. */
  get shown(): Answer {
    return (
      this.#refined ?? {
        key: keyOf(this.#set),
        cell: this.previewCell,
        speeds: this.#fresh.speeds,
        failures: this.#fresh.failures,
      }
    );
  }

  /** A speed to be drawn: of the present draft, or of the last one while it is computed. */
  speed(rpm: number): BoardSpeed | null {
    return this.shown.speeds.get(rpm) ?? this.#stale.get(rpm) ?? null;
  }

  /** The last draft's rows, where the present one's are not all there yet. */
  get staleRows(): readonly SweepRow[] {
    return this.progress === 'computing' ? rowsOf({ speeds: this.#stale }) : [];
  }

  /** The base on the mesh now shown; null: it has not been computed there. */
  get base(): Answer | null {
    return (
      this.#kept.at(this.#kept.base, this.shown.cell) ?? this.#kept.at(this.#kept.base, this.previewCell)
    );
  }

  get isBase(): boolean {
    return keyOf(this.#set) === this.#kept.base;
  }

  /** The finest rows that are kept of a draft; null: it was not computed. */
  keptOf(set: readonly string[]): KeptRows | null {
    return this.#kept.rowsFor(keyOf(set));
  }

  #breakOff(): void {
    if (this.#rest !== null) clearTimeout(this.#rest);
    this.#rest = null;
    this.#warm.drop();
    this.#refinement.breakOff();
  }

  #preview(): void {
    const { revision, previewCell: cell } = this;
    const set = this.#set;
    const fresh = this.#fresh;
    this.progress = 'computing';
    const { speeds } = this.#subject.run;
    const outward = [...speeds].sort((a, b) => Math.abs(a - this.#chosen) - Math.abs(b - this.#chosen));
    const done = (): void => {
      if (revision !== this.revision || fresh.speeds.size + fresh.failures.size < speeds.length) return;
      this.progress = 'preview';
      this.#kept.keep({ key: keyOf(set), cell, ...fresh });
      this.#listener.answered();
      this.#listener.kept();
      this.#aside();
      this.#rested();
    };
    for (const rpm of outward)
      this.#warm.do(
        () => ({ kind: 'preview', set, cell, rpm, start: this.#fieldsFor(rpm) }),
        ({ speed, state, failure }) => {
          if (state !== null) this.#fields.set(rpm, { key: keyOf(set), state });
          if (speed === null) fresh.failures.set(rpm, failure);
          else fresh.speeds.set(rpm, speed);
          // What comes late is still newer than what stands there.
          if (revision !== this.revision && speed !== null) this.#stale.set(rpm, speed);
          if (rpm === this.#chosen) this.answeredRevision = Math.max(revision, this.answeredRevision);
          this.#listener.answered();
          done();
        },
        (message) => this.#listener.failed(message),
      );
    this.#listener.answered();
  }

  #fieldsFor(rpm: number): EngineState | null {
    const speeds = [...this.#fields.keys()].sort((a, b) => Math.abs(a - rpm) - Math.abs(b - rpm));
    return this.#fields.get(speeds[0] ?? Number.NaN)?.state ?? null;
  }

  /** What is worth knowing of a whole preview: rules of thumb, and the turn to be played. */
  #aside(): void {
    const { revision, previewCell: cell } = this;
    const set = this.#set;
    this.#warm.do(
      () => ({ kind: 'rules', set, cell }),
      (rules) => {
        if (revision === this.revision) this.#listener.ruled(rules);
      },
      (message) => this.#listener.failed(message),
    );
    this.#turn();
  }

  /** The turn of the chosen speed, once its fields are those of this draft. */
  #turn(): void {
    if (this.progress === 'computing') return;
    const { revision, previewCell: cell } = this;
    const set = this.#set;
    const rpm = this.#chosen;
    const own = this.#fields.get(rpm);
    const ignore = (): void => {};
    if (own?.key === keyOf(set))
      this.#warm.do(
        () => ({ kind: 'turn', set, cell, rpm, start: own.state }),
        (turn) => {
          if (revision === this.revision && rpm === this.#chosen) this.#listener.turned(turn);
        },
        ignore,
      );
    else
      this.#warm.do(
        () => ({ kind: 'preview', set, cell, rpm, start: this.#fieldsFor(rpm) }),
        ({ state }) => {
          if (state === null || revision !== this.revision || rpm !== this.#chosen) return;
          this.#fields.set(rpm, { key: keyOf(set), state });
          this.#turn();
        },
        ignore,
      );
  }

  #rested(): void {
    if (this.#rest !== null) clearTimeout(this.#rest);
    this.#rest = setTimeout(() => {
      if (this.#held || this.progress !== 'preview') return;
      const { cell } = this.#subject.run;
      const cells = 2 * cell <= STUDY_CELL ? [STUDY_CELL, cell] : [cell];
      this.#refinement.run(
        {
          set: this.#set,
          speeds: this.#subject.run.speeds,
          chosen: this.#chosen,
          cells: cells.filter((one) => one < this.previewCell || one === cell),
        },
        {
          stepped: () => this.#listener.answered(),
          stood: (answer, last) => this.#stand(answer, last),
          failed: (message) => this.#listener.failed(message),
        },
      );
    }, REST_MS);
  }

  /** A whole answer stands. */
  #stand(answer: Answer, last: boolean): void {
    this.#kept.keep(answer);
    this.#refined = answer;
    if (last) {
      this.progress = 'refined';
      this.#idleOn(answer.cell);
    }
    this.#listener.answered();
    this.#listener.kept();
  }

  #idleOn(cell: number): void {
    this.#idle.run({
      base: this.#baseSet,
      cell,
      previewCell: this.previewCell,
      stages: this.#listener.stages(),
      speeds: this.#subject.run.speeds,
      chosen: this.#chosen,
    });
  }

  /** An answer that was kept is shown again at once. */
  #show(answer: Answer): void {
    this.#refined = answer;
    this.progress = 'refined';
    this.answeredRevision = this.revision;
    this.#listener.answered();
    this.#aside();
    this.#idleOn(answer.cell);
  }
}

const blank = () => ({ speeds: new Map<number, BoardSpeed>(), failures: new Map<number, string>() });
