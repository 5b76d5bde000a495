/**
 * The ports on the bore unrolled: exhaust in the middle, transfers to either side, from the deck down to bottom dead centre.
 * A roof is pulled up or down, or moved with the arrows; height and duration are told as it moves. The floor stays, and so
 * does the head: moving a roof is what a file does in the barrel.
 */

import type { Case } from '../../../src/model/case.ts';
import { type EngineEvents, engineEvents, type WindowEvents } from '../../../src/timing/events.ts';
import { fixed } from '../../theme/numbers.ts';
import { attribute, drawn, write } from './element.ts';

/** What a drag and an arrow round to, and with shift [mm]. */
const STEP = 0.1;
const FINE = 0.02;
/** A drawing of fewer pixels a millimetre has no room for names. */
const NARROW = 2.6;

export interface PortHands {
  subject(): Case;
  hold(held: boolean): void;
  /** Raises a window so far above where its other keys put it [mm]. */
  raise(port: 'exhaust' | 'transfers', window: number, mm: number): boolean;
  settle(): void;
}

interface Roof {
  readonly port: 'exhaust' | 'transfers';
  readonly index: number;
}

export class PortDrawing {
  readonly #svg: SVGSVGElement;
  readonly #hands: PortHands;
  #roofs: readonly Roof[] = [];
  #grip: (Roof & { readonly y: number; readonly raise: number }) | null = null;
  #perMm = 1;

  constructor(svg: SVGSVGElement, hands: PortHands) {
    this.#svg = svg;
    this.#hands = hands;
    svg.addEventListener('pointermove', (event) => this.#drag(event));
    for (const end of ['pointerup', 'pointercancel'] as const) svg.addEventListener(end, () => this.#letGo());
  }

  draw(width: number): void {
    if (width === 0) return;
    const { engine } = this.#hands.subject();
    const events = engineEvents(engine);
    const around = Math.PI * 1000 * engine.bore;
    const stroke = 1000 * events.crank.stroke;
    const perMm = width / (around + 6);
    this.#perMm = perMm;
    const height = Math.round((stroke + 18) * perMm);
    attribute(this.#svg, { viewBox: `0 0 ${width} ${height}`, width, height });
    const roofs = [
      ...events.exhaust.windows.map((_, index): Roof => ({ port: 'exhaust', index })),
      ...events.transfers.windows.map((_, index): Roof => ({ port: 'transfers', index })),
    ];
    if (roofs.length !== this.#roofs.length) {
      this.#roofs = roofs;
      this.#svg.replaceChildren(
        drawn('path', { class: 'weld' }),
        ...roofs.map((roof) => drawn('path', { class: `window ${roof.port}` })),
        ...roofs.map((roof) => this.#newRoof(roof)),
      );
    }
    const y = (travel: number): number => (travel + 10) * perMm;
    attribute(this.#svg.children[0]!, { d: `M0 ${y(0)}H${width}M0 ${y(stroke)}H${width}` });
    roofs.forEach((roof, k) => {
      const window = events[roof.port].windows[roof.index];
      if (window === undefined) return;
      const spots = placesAround(engine, roof, 1000 * engine.bore, events);
      const at = (mm: number): number => width / 2 + mm * perMm;
      attribute(this.#svg.children[1 + k]!, {
        d: spots.map((spot) => outline(window, at(spot), y, perMm)).join(''),
      });
      this.#place(this.#svg.children[1 + roofs.length + k] as SVGGElement, roof, window, [
        at(spots[0] ?? 0),
        y,
      ]);
    });
  }

  #place(
    handle: SVGGElement,
    roof: Roof,
    { shape, durationDeg }: WindowEvents,
    [x, y]: readonly [number, (travel: number) => number],
  ): void {
    const height = 1000 * (shape.floor - shape.roof);
    const said = `${fixed(durationDeg, 1)}°, ${fixed(height, 1)} mm high`;
    attribute(handle, {
      transform: `translate(${x.toFixed(1)} ${y(1000 * shape.roof).toFixed(1)})`,
      'aria-label': `Roof of ${roof.port === 'exhaust' ? 'exhaust' : 'transfer'} window ${shape.name}`,
      'aria-valuenow': height.toFixed(2),
      'aria-valuetext': said,
    });
    // Where windows stand close there is room for the duration alone.
    const lines =
      this.#perMm < NARROW
        ? roof.port === 'exhaust'
          ? ['', '', `${fixed(durationDeg, 0)}°`]
          : [`${fixed(durationDeg, 0)}°`, '', '']
        : [shape.name, `${fixed(durationDeg, 1)}°`, `${fixed(height, 1)} mm`];
    handle.querySelectorAll('text').forEach((at, k) => {
      write(at, lines[k] ?? '');
    });
  }

  #newRoof(roof: Roof): SVGGElement {
    const made = drawn(
      'g',
      { class: 'joint', tabindex: 0, role: 'slider', 'aria-valuemin': 0, 'aria-valuemax': 200 },
      drawn('circle', { class: 'reach', r: 15 }),
      drawn('circle', { class: 'knob', r: 6 }),
      // Above an exhaust window there is room; transfers stand side by side and are wide.
      ...(roof.port === 'exhaust' ? [-40, -26, -12] : [20, 34, 48]).map((y) => drawn('text', { y })),
    );
    made.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return;
      event.preventDefault();
      this.#grip = { ...roof, y: event.clientY, raise: this.#raiseOf(roof) };
      this.#svg.setPointerCapture(event.pointerId);
      made.focus();
      this.#hands.hold(true);
    });
    made.addEventListener('keydown', (event) => {
      const way = { ArrowUp: 1, ArrowDown: -1, ArrowRight: 1, ArrowLeft: -1 }[event.key];
      if (way === undefined) return;
      event.preventDefault();
      this.#raise(roof, this.#raiseOf(roof) + way * (event.shiftKey ? FINE : STEP));
    });
    made.addEventListener('keyup', () => this.#hands.settle());
    return made;
  }

  /** How far a roof is raised by the case as it is [mm]. */
  #raiseOf({ port, index }: Roof): number {
    const path = `engine.${port}.windows.`;
    const { engine, inputs } = this.#hands.subject();
    const name = engine[port].windows[index]?.name ?? '';
    const found = inputs.find((input) =>
      [`${path}${name}.raise`, `${path}${index}.raise`].includes(input.path),
    );
    return Number.parseFloat(found?.value ?? '0') || 0;
  }

  #raise({ port, index }: Roof, mm: number): void {
    this.#hands.raise(port, index, Number(mm.toFixed(2)));
  }

  #drag(event: PointerEvent): void {
    if (this.#grip === null) return;
    const step = event.shiftKey ? FINE : STEP;
    const mm = this.#grip.raise + (this.#grip.y - event.clientY) / this.#perMm;
    const rounded = Number((Math.round(mm / step) * step).toFixed(2));
    if (rounded !== this.#raiseOf(this.#grip)) this.#raise(this.#grip, rounded);
  }

  #letGo(): void {
    if (this.#grip === null) return;
    this.#grip = null;
    this.#hands.settle();
    this.#hands.hold(false);
  }
}

/** Where the windows of a kind have their middles, along the bore from the exhaust's [mm]. */
function placesAround(
  engine: Case['engine'],
  { port, index }: Roof,
  bore: number,
  events: EngineEvents,
): readonly number[] {
  const stated = engine[port].windows[index];
  const shape = events[port].windows[index]?.shape;
  if (stated === undefined || shape === undefined) return [0];
  const perDeg = (Math.PI * bore) / 360;
  // Not stated: an exhaust window beside those before it, transfers spread over what is left.
  const before = engine[port].windows.slice(0, index).reduce((sum, one) => sum + 1000 * one.width, 0);
  const guess = port === 'exhaust' ? (index === 0 ? 0 : before / 2 + 8) : (60 + 45 * index) * perDeg;
  const at = stated.aroundDeg === null ? guess : stated.aroundDeg * perDeg;
  const half = 0.5 * Math.PI * bore;
  if (stated.count === 1)
    return [Math.abs(at) > half - 1000 * shape.arcWidth ? Math.min(at, half - 500 * shape.arcWidth) : at];
  return [at, -at];
}

/** A window as it is cut: corners rounded, roof arched. */
function outline({ shape }: WindowEvents, x: number, y: (travel: number) => number, perMm: number): string {
  const half = 500 * shape.arcWidth * perMm;
  const [top, bottom] = [y(1000 * shape.roof), y(1000 * shape.floor)];
  const corner = (radius: number): number => Math.min(1000 * radius * perMm, half, (bottom - top) / 2);
  const [a, b] = [corner(shape.cornerTop), corner(shape.cornerBottom)];
  const rise = Number.isFinite(shape.archRadius)
    ? Math.min(6, (half * half) / (2000 * shape.archRadius * perMm))
    : 0;
  return (
    `M${x - half} ${top + a + rise}Q${x - half} ${top + rise} ${x - half + a} ${top + rise}` +
    `Q${x} ${top - rise} ${x + half - a} ${top + rise}Q${x + half} ${top + rise} ${x + half} ${top + a + rise}` +
    `V${bottom - b}Q${x + half} ${bottom} ${x + half - b} ${bottom}H${x - half + b}Q${x - half} ${bottom} ${x - half} ${bottom - b}Z`
  );
}
