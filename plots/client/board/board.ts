/**
 * The board: a draft that is moved by hand, and the answer that follows. This wires the parts: what the hands do goes to the
 * draft's history, which refuses in words what cannot be; what stands goes to the pursuit, and what comes back is drawn with
 * the next frame. Nothing but reading the case and drawing is done on this thread.
 */

import { cautionsOf } from '../../../src/board/cautions.ts';
import { type BoardCase, openDesk } from '../../../src/board/desk.ts';
import { editChanges } from '../../../src/board/edit-changes.ts';
import type { Edit } from '../../../src/board/sections.ts';
import { withSettings } from '../../../src/board/settings.ts';
import { caseFile, pipeFile } from '../../../src/board/taken-away.ts';
import type { Turn } from '../../../src/board/turn.ts';
import { AddressBar, addressed } from './address.ts';
import { AnswerView, lookOf } from './answer-view.ts';
import { boardApi } from './board-api.ts';
import { wireButtons } from './board-buttons.ts';
import { Cautions } from './cautions-said.ts';
import { Crew } from './crew.ts';
import { Dials } from './dials.ts';
import { DraftHistory } from './draft-history.ts';
import { place, write } from './element.ts';
import { type KeyAbout, KeyList } from './key-list.ts';
import { paintGas } from './pipe-gas.ts';
import { PipeJoints } from './pipe-joints.ts';
import { type Bench, benchOf } from './pipe-scale.ts';
import { PortDrawing } from './port-drawing.ts';
import { Pursuit } from './pursuit.ts';
import { RuleMarks } from './rule-marks.ts';
import { SectionTable } from './section-table.ts';
import { StageList } from './stage-list.ts';
import { fileName } from './take-away.ts';
import { TurnPlayer } from './turn-player.ts';

export interface BoardPageData {
  readonly carried: BoardCase;
  readonly keys: readonly KeyAbout[];
}

type Changes = readonly (readonly [path: string, text: string])[];

export function startBoard(script: string): void {
  const { carried, keys } = JSON.parse(place('data').textContent ?? '') as BoardPageData;
  const history = new DraftHistory(openDesk(carried));
  const from = addressed(location.hash);
  const address = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
  new Board(history, address, keys).begin(from);
}

class Board {
  readonly #history: DraftHistory;
  readonly #pursuit: Pursuit;
  readonly #answer: AnswerView;
  readonly #joints: PipeJoints;
  readonly #table: SectionTable;
  readonly #ports: PortDrawing;
  readonly #dials: Dials;
  readonly #keys: KeyList;
  readonly #stages: StageList;
  readonly #player: TurnPlayer;
  readonly #rules = new RuleMarks(place('marks'));
  readonly #gas = place<HTMLCanvasElement>('gas');
  readonly #cautions = new Cautions(place('cautions'));
  #bench: Bench;
  #turn: Turn | null = null;
  #held = false;
  #frame: number | null = null;
  #dirty = { draft: true, answer: true, gas: true };
  readonly #address: AddressBar;

  constructor(history: DraftHistory, script: string, keys: readonly KeyAbout[]) {
    this.#history = history;
    this.#address = new AddressBar(() => ({ set: history.set, stages: history.stages }));
    const cores = Math.max(1, (navigator.hardwareConcurrency || 2) - 1);
    const crew = (): Crew => new Crew(script, history.desk.carried, cores);
    this.#pursuit = new Pursuit({ warm: crew(), fine: crew() }, history.subject, {
      answered: () => this.#redraw('answer'),
      turned: (turn) => this.#turned(turn),
      ruled: (rules) => {
        this.#rules.draw(rules);
        this.#joints.rule(rules);
        this.#redraw('draft');
      },
      kept: () => this.#stages.draw(this.#history.stages, this.#pursuit.chosen),
      stages: () => this.#history.stages.map(({ set }) => set),
      failed: (message) => this.#notice(`The computation failed: ${message}`),
    });
    this.#bench = benchOf(history.subject, this.#width());
    const hold = (held: boolean): void => this.#hold(held);
    const settle = (): void => this.#settle();
    const subject = () => this.#history.subject;
    const step = (does: boolean): boolean => {
      if (does) this.#settle();
      return does;
    };
    this.#joints = new PipeJoints(place('joints') as Element as SVGSVGElement, {
      subject,
      bench: () => this.#bench,
      carry: () => place<HTMLInputElement>('carry').checked,
      hold,
      edit: (edit) => this.#edit(edit),
      settle,
    });
    this.#table = new SectionTable(place('sections'), {
      edit: (edit) => step(this.#edit(edit)),
      refuse: (words) => this.#notice(words),
    });
    this.#ports = new PortDrawing(place('ports') as Element as SVGSVGElement, {
      subject,
      hold,
      raise: (port, window, mm) => this.#change([[`engine.${port}.windows.${window}.raise`, `${mm} mm`]]),
      settle,
    });
    this.#dials = new Dials(place('dials'), { hold, change: (changes) => this.#change(changes), settle });
    this.#keys = new KeyList({ search: place('search'), body: place('keys'), said: place('found') }, keys, {
      change: (path, text) => step(this.#change([[path, text]])),
    });
    this.#stages = new StageList({ list: place('stages'), beside: place('beside') }, history.desk, {
      take: (set) => void step(this.#attempt(set)),
      forget: (name) => {
        this.#history.forget(name);
        this.#settled();
      },
      rows: (set) => this.#pursuit.keptOf(set) ?? { rows: [], cell: 0 },
    });
    this.#answer = new AnswerView(this.#pursuit, () => this.#redrawAll());
    this.#player = new TurnPlayer(() => this.#redraw('gas'));
  }

  begin(from: ReturnType<typeof addressed>): void {
    this.#pursuit.take(this.#history.set, this.#history.subject);
    if (from !== null) this.#arrive(from);
    wireButtons({
      walk: (way) => void this.#walk(way),
      keep: (name) => {
        this.#history.keep(name || `stage ${this.#history.stages.length + 1}`);
        this.#settled();
      },
      numbers: () => this.#redraw('answer'),
      name: () => fileName(this.#history.subject.name),
      pipeYaml: () => pipeFile(this.#history.subject),
      caseYaml: () => this.#caseYaml(),
      canvases: () => [this.#gas, ...this.#answer.canvases],
      paper: () => lookOf(this.#gas).palette.paper,
    });
    window.board = boardApi(this.#history, this.#pursuit, {
      step: (set) => {
        if (!this.#attempt(set)) return place('notice').textContent;
        this.#settle();
        return null;
      },
      walk: (way) => this.#walk(way),
      caseYaml: () => this.#caseYaml(),
    });
    let width = innerWidth;
    addEventListener('resize', () => {
      if (width === innerWidth) return;
      width = innerWidth;
      this.#redrawAll();
    });
    addEventListener('hashchange', () => {
      const there = this.#address.other();
      if (there !== null) this.#arrive(there);
    });
    this.#settled();
  }

  /** What an address holds is tried like any change; a stage that cannot be read is left out. */
  #arrive({ set, stages }: NonNullable<ReturnType<typeof addressed>>): void {
    this.#history.stages = stages;
    if (this.#attempt(set)) this.#settle();
    this.#stages.draw(this.#history.stages, this.#pursuit.chosen);
  }

  #attempt(set: readonly string[]): boolean {
    const words = this.#history.attempt(set);
    if (words !== null) {
      this.#notice(`Not done: ${words}.`);
      return false;
    }
    this.#notice('');
    this.#pursuit.take(this.#history.set, this.#history.subject);
    this.#turn = null;
    document.documentElement.dataset.revision = String(this.#pursuit.revision);
    this.#redraw('draft');
    this.#cautions.say(cautionsOf(this.#history.base, this.#history.subject));
    return true;
  }

  #change(changes: Changes): boolean {
    return this.#attempt(withSettings(this.#history.set, changes));
  }

  #edit(edit: Edit): boolean {
    if (!edit.ok) {
      this.#notice(`Not done: ${edit.words}.`);
      return false;
    }
    return this.#change(editChanges(this.#history.subject, edit.sections));
  }

  #settle(): void {
    if (this.#history.settle()) this.#settled();
  }

  /** A step is done: what is long to draw is drawn, and the address follows. */
  #settled(): void {
    const history = this.#history;
    place<HTMLButtonElement>('undo').disabled = !history.canUndo;
    place<HTMLButtonElement>('redo').disabled = !history.canRedo;
    this.#keys.draw(history.subject);
    this.#stages.draw(history.stages, this.#pursuit.chosen);
    this.#redraw('draft');
    this.#address.follow();
  }

  #hold(held: boolean): void {
    this.#held = held;
    if (held) this.#player.stop();
    this.#pursuit.hold(held);
    if (!held) this.#redraw('draft');
  }

  #walk(way: 'undo' | 'redo'): boolean {
    if (!this.#history[way]()) return false;
    this.#notice('');
    this.#turn = null;
    this.#pursuit.take(this.#history.set, this.#history.subject);
    this.#settled();
    return true;
  }

  #turned(turn: Turn): void {
    this.#turn = turn;
    this.#player.of(turn.opensDeg, turn.rpm, turn.cell);
    this.#redraw('gas');
  }

  #notice(words: string): void {
    write(place('notice'), words);
  }

  #width(): number {
    return place('bench').clientWidth;
  }

  #redrawAll(): void {
    this.#bench = benchOf(this.#history.subject, this.#width());
    this.#dirty = { draft: true, answer: true, gas: true };
    this.#redraw('answer');
  }

  #redraw(part: 'draft' | 'answer' | 'gas'): void {
    this.#dirty[part] = true;
    this.#frame ??= requestAnimationFrame(() => {
      this.#frame = null;
      this.#drawFrame();
    });
  }

  #drawFrame(): void {
    if (this.#width() === 0) return; // Not shown yet.
    const { draft, answer, gas } = this.#dirty;
    this.#dirty = { draft: false, answer: false, gas: false };
    const { subject } = this.#history;
    if (draft) {
      this.#bench = benchOf(subject, this.#width(), this.#held ? this.#bench : null);
      this.#joints.draw();
      this.#table.draw(subject);
      this.#ports.draw(place('ports').parentElement?.clientWidth ?? 300);
      this.#dials.draw(subject);
    }
    if (draft || gas) this.#drawGas();
    if (answer) this.#answer.draw(subject);
    const root = document.documentElement;
    root.dataset.state = this.#pursuit.progress;
    root.dataset.answered = String(this.#pursuit.answeredRevision);
    root.dataset.drawn = 'yes';
  }

  #drawGas(): void {
    const ambientBar = this.#history.subject.engine.ambient.pressure / 1e5;
    const instant = { turn: this.#turn, degrees: this.#player.degrees, ambientBar };
    paintGas(this.#gas, this.#bench, instant, lookOf(this.#gas));
  }

  #caseYaml(): string {
    const { desk, set, base, subject } = this.#history;
    return caseFile(desk, set, base, subject);
  }
}
