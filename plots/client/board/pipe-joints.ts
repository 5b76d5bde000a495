/**
 * The pipe's outline with its joints: dragged along (length) and across (diameter), or moved with the arrows, finer with
 * shift. Each joint is a slider for who cannot see it; the table beside the drawing does the same.
 */

import { type Edit, movedAcross, movedAlong } from '../../../src/board/sections.ts';
import type { Case } from '../../../src/model/case.ts';
import type { RuleFinding } from '../../../src/timing/rules/rule.ts';
import { silhouette } from '../../marks/silhouette.ts';
import { fixed } from '../../theme/numbers.ts';
import { attribute, drawn, write } from './element.ts';
import { type Bench, stretchesOf } from './pipe-scale.ts';
import { type UsualMark, usualMarks } from './usual-marks.ts';

/** What a drag rounds to [m], by hand and with shift. */
const STEP = 0.5e-3;
const FINE = 0.1e-3;
/** What an arrow moves [m]. */
const ARROW = 1e-3;

export interface JointHands {
  subject(): Case;
  bench(): Bench;
  /** Whether what is behind a joint moves along with it. */
  carry(): boolean;
  /** The hand takes hold, tries, and lets go. */
  hold(held: boolean): void;
  edit(edit: Edit): boolean;
  settle(): void;
}

interface Grip {
  readonly joint: number;
  readonly x: number;
  readonly y: number;
  readonly place: number;
  readonly diameter: number;
}

export class PipeJoints {
  readonly #svg: SVGSVGElement;
  readonly #hands: JointHands;
  readonly #outline = drawn('path', { class: 'wall' });
  readonly #welds = drawn('path', { class: 'weld' });
  readonly #usual = drawn('g', { class: 'usual' });
  readonly #joints = drawn('g');
  #marks: readonly UsualMark[] = [];
  #grip: Grip | null = null;

  constructor(svg: SVGSVGElement, hands: JointHands) {
    this.#svg = svg;
    this.#hands = hands;
    svg.append(this.#outline, this.#welds, this.#usual, this.#joints);
    svg.addEventListener('pointermove', (event) => this.#drag(event));
    for (const end of ['pointerup', 'pointercancel'] as const) svg.addEventListener(end, () => this.#letGo());
  }

  /** Whether a joint is in the hand. */
  get gripped(): boolean {
    return this.#grip !== null;
  }

  /** Rules of thumb of the pipe as it now is. */
  rule(rules: readonly RuleFinding[]): void {
    this.#marks = usualMarks(rules, stretchesOf(this.#hands.subject()));
  }

  draw(): void {
    const { stretches, x, y, width, height } = this.#hands.bench();
    attribute(this.#svg, { viewBox: `0 0 ${width} ${height}`, width, height });
    const line = silhouette(stretches);
    const d = line.x.map(
      (at, k) => `${k === 0 ? 'M' : 'L'}${x(at).toFixed(2)} ${y(line.y[k] ?? 0).toFixed(2)}`,
    );
    attribute(this.#outline, { d: d.join('') });
    const welds = stretches.slice(1).map(({ start, diameters: [left] }) => {
      const at = x(start).toFixed(2);
      return `M${at} ${y(left / 2).toFixed(2)}V${y(-left / 2).toFixed(2)}`;
    });
    attribute(this.#welds, { d: welds.join('') });
    this.#drawJoints();
    this.#drawUsual();
  }

  #drawJoints(): void {
    const { sections } = this.#hands.subject().pipe;
    const { stretches, x, y } = this.#hands.bench();
    const count = sections.length + 1;
    while (this.#joints.children.length > count) this.#joints.lastElementChild?.remove();
    while (this.#joints.children.length < count)
      this.#joints.append(this.#newJoint(this.#joints.children.length));
    for (let k = 0; k < count; k++) {
      const at = this.#joints.children[k] as SVGGElement;
      const [place, diameter] = placeOf(stretches, k);
      attribute(at, {
        transform: `translate(${x(place).toFixed(2)} ${y(diameter / 2).toFixed(2)})`,
        'aria-label': `Joint ${k}: ${jointName(sections, k)}`,
        'aria-valuenow': diameter.toFixed(1),
        'aria-valuetext': `${fixed(place, 1)} mm from the port, diameter ${fixed(diameter, 1)} mm`,
      });
      const words = at.querySelector('text');
      if (words !== null) {
        write(words, fixed(diameter, diameter % 1 === 0 ? 0 : 1));
        attribute(words, { 'text-anchor': k === count - 1 ? 'end' : 'middle' });
      }
    }
  }

  #newJoint(joint: number): SVGGElement {
    const made = drawn(
      'g',
      {
        class: 'joint',
        tabindex: 0,
        role: 'slider',
        'aria-valuemin': 8,
        'aria-valuemax': 300,
        'aria-roledescription': 'joint: up and down for its diameter, left and right along the pipe',
      },
      drawn('circle', { class: 'reach', r: 15 }),
      drawn('circle', { class: 'knob', r: 6.5 }),
      drawn('text', { y: -12, 'aria-hidden': 'true' }),
    );
    made.addEventListener('pointerdown', (event) => this.#take(event, joint));
    made.addEventListener('keydown', (event) => this.#key(event, joint));
    made.addEventListener('keyup', () => this.#hands.settle());
    return made;
  }

  #take(event: PointerEvent, joint: number): void {
    if (event.button !== 0) return;
    event.preventDefault();
    const [place, diameter] = placeOf(this.#hands.bench().stretches, joint);
    this.#grip = { joint, x: event.clientX, y: event.clientY, place, diameter };
    this.#svg.setPointerCapture(event.pointerId);
    (event.currentTarget as SVGGElement).focus();
    this.#hands.hold(true);
  }

  #drag(event: PointerEvent): void {
    const grip = this.#grip;
    if (grip === null) return;
    const { perMm, perMmAcross, stretches } = this.#hands.bench();
    const step = event.shiftKey ? FINE : STEP;
    const snap = (mm: number): number => Math.round(mm / 1000 / step) * step;
    const [now] = placeOf(stretches, grip.joint);
    const place = snap(grip.place + (event.clientX - grip.x) / perMm);
    const diameter = snap(grip.diameter + (2 * (grip.y - event.clientY)) / perMmAcross);
    const { sections } = this.#hands.subject().pipe;
    let edit: Edit = { ok: true, sections };
    if (Math.abs(diameter * 1000 - placeOf(stretches, grip.joint)[1]) > 1e-6)
      edit = movedAcross(edit.sections, grip.joint, diameter);
    const by = place - now / 1000;
    if (edit.ok && grip.joint > 0 && Math.abs(by) > 1e-7)
      edit = movedAlong(edit.sections, grip.joint, by, this.#hands.carry());
    if (!edit.ok || edit.sections !== sections) this.#hands.edit(edit);
  }

  #letGo(): void {
    if (this.#grip === null) return;
    this.#grip = null;
    this.#hands.settle();
    this.#hands.hold(false);
  }

  #key(event: KeyboardEvent, joint: number): void {
    const step = event.shiftKey ? FINE : ARROW;
    const { sections } = this.#hands.subject().pipe;
    const [, diameter] = placeOf(this.#hands.bench().stretches, joint);
    const along = (by: number): Edit => movedAlong(sections, joint, by, this.#hands.carry());
    const across = (by: number): Edit => movedAcross(sections, joint, diameter / 1000 + by);
    const edits: Readonly<Record<string, () => Edit>> = {
      ArrowLeft: () => along(-step),
      ArrowRight: () => along(step),
      ArrowUp: () => across(step),
      ArrowDown: () => across(-step),
    };
    const edit = edits[event.key];
    if (edit === undefined) return;
    event.preventDefault();
    this.#hands.edit(edit());
  }

  /** Quiet marks at the lower edge: dashes for diameters, brackets for where something ends. */
  #drawUsual(): void {
    const { x, y, height } = this.#hands.bench();
    const paths = this.#marks.map(({ of, range, at, outside }) => {
      const [low, high] = of === 'diameter' ? range : [x(range[0]), x(range[1])];
      const level = at === 0 ? height - 9 : y(-at / 2) + 7;
      const d =
        of === 'diameter'
          ? [low, high].map((edge) => `M${(x(at) - 9).toFixed(1)} ${y(-edge / 2).toFixed(1)}h18`).join('')
          : `M${low.toFixed(1)} ${(level - 4).toFixed(1)}v8m0 -4H${high.toFixed(1)}m0 -4v8`;
      return drawn('path', { d, class: outside ? 'outside' : '' });
    });
    this.#usual.replaceChildren(...paths);
  }
}

/** Where a joint stands from the port's face, and the diameter there [mm]: the flange is joint 0, behind the passage. */
function placeOf(stretches: Bench['stretches'], joint: number): readonly [place: number, diameter: number] {
  const behind = stretches[joint + 1];
  const before = stretches[joint];
  return joint === 0
    ? [behind?.start ?? 0, behind?.diameters[0] ?? 0]
    : [before?.end ?? 0, before?.diameters[1] ?? 0];
}

const jointName = (sections: Case['pipe']['sections'], joint: number): string => {
  const [before, behind] = [sections[joint - 1]?.name, sections[joint]?.name];
  if (before === undefined) return `flange, ${behind ?? ''}`;
  return behind === undefined ? `end of ${before}` : `${before} to ${behind}`;
};
