/**
 * Plays a turn: the crank at a chosen slowness, or step by step. Who asked the system for reduced motion gets steps, and
 * motion only when the button is pressed.
 */

import { degrees as inDegrees, millimetres } from '../../theme/numbers.ts';
import { place, write } from './element.ts';

/** Degrees a second at the slowest and the fastest that can be chosen. */
const SLOWEST = 10;
const FASTEST = 360;

export class TurnPlayer {
  /** Degrees since exhaust opening. */
  degrees = 0;
  readonly #button = place<HTMLButtonElement>('turn-play');
  readonly #angle = place<HTMLInputElement>('turn-angle');
  readonly #slowness = place<HTMLInputElement>('turn-speed');
  readonly #said = place('turn-said');
  readonly #show: () => void;
  #frame: number | null = null;
  #last = 0;
  #opens = 0;
  #rpm = 0;
  #cell = 0;

  constructor(show: () => void) {
    this.#show = show;
    this.#button.addEventListener('click', () => this.#toggle());
    this.#angle.addEventListener('input', () => this.#go(Number(this.#angle.value)));
    this.#slowness.addEventListener('input', () => this.#say());
    place('turn-back').addEventListener('click', () => this.#step(-1));
    place('turn-on').addEventListener('click', () => this.#step(1));
  }

  get playing(): boolean {
    return this.#frame !== null;
  }

  /** The turn that is played begins at an angle [deg] and is of a speed [rpm], computed on cells so long [m]. */
  of(opensDeg: number, rpm: number, cell: number): void {
    this.#opens = opensDeg;
    this.#rpm = rpm;
    this.#cell = cell;
    this.#say();
  }

  stop(): void {
    if (this.#frame !== null) cancelAnimationFrame(this.#frame);
    this.#frame = null;
    write(this.#button, 'Play a turn');
    this.#button.setAttribute('aria-pressed', 'false');
  }

  /** Degrees a second: even steps of the slider are even ratios. */
  get #rate(): number {
    return SLOWEST * (FASTEST / SLOWEST) ** (Number(this.#slowness.value) / 100);
  }

  #toggle(): void {
    if (this.playing) {
      this.stop();
      return;
    }
    this.#last = performance.now();
    write(this.#button, 'Pause');
    this.#button.setAttribute('aria-pressed', 'true');
    const tick = (now: number): void => {
      this.#frame = requestAnimationFrame(tick);
      this.#go((this.degrees + ((now - this.#last) / 1000) * this.#rate) % 360);
      this.#last = now;
    };
    this.#frame = requestAnimationFrame(tick);
  }

  #step(by: number): void {
    this.stop();
    this.#go((Math.round(this.degrees) + by + 360) % 360);
  }

  #go(degrees: number): void {
    this.degrees = degrees;
    this.#angle.value = String(Math.round(degrees));
    this.#say();
    this.#show();
  }

  #say(): void {
    const angle = inDegrees(this.#opens + this.degrees);
    this.#angle.setAttribute('aria-valuetext', `${angle} after top dead centre`);
    const times = this.#rpm > 0 ? Math.round((6 * this.#rpm) / this.#rate) : 0;
    const mesh = this.#cell > 0 ? `; a preview on ${millimetres(this.#cell)} cells` : '';
    write(this.#said, `${angle}, ${times} times slower than the engine${mesh}`);
  }
}
