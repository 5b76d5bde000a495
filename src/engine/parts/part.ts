/**
 * A part of an engine: the ducts, volumes and links that it adds to the network, the state it starts from, what it keeps for
 * another start, and its page in the books of a cycle. A part knows its neighbours only by what it is built on: a volume, or
 * the end of a duct.
 */

import type { Clock, Link, MarchingDuct, Volume } from '../../../solver/index.ts';
import {
  type DuctField,
  restoreDuct,
  restoreVolume,
  saveDuct,
  saveVolume,
  type VolumeContent,
} from './saved.ts';

/** A part's state as plain data. */
export interface PartState {
  readonly ducts: readonly DuctField[];
  readonly volumes: readonly VolumeContent[];
  /** State of what moves by itself: a reed, a column of gas. */
  readonly motion: readonly number[];
}

/** Guesses that a cold start is made from; the settled answer does not depend on them. */
export interface StartGuess {
  /** Cylinder at exhaust opening [Pa, K]. */
  readonly cylinderPressure: number;
  readonly cylinderTemperature: number;
  /** Gas in the pipe at the flange and at the end [K]. */
  readonly pipeTemperature: number;
  readonly tailTemperature: number;
}

/** A cold start: the time [s], the guess, and the ambient state [Pa, K]. */
export interface ColdStart extends StartGuess {
  readonly time: number;
  readonly ambient: { readonly pressure: number; readonly temperature: number };
}

export abstract class EnginePart {
  readonly ducts: readonly MarchingDuct[] = [];
  readonly volumes: readonly Volume[] = [];
  readonly links: readonly Link[] = [];

  /** Fills the part with a guess. */
  abstract startCold(start: ColdStart): void;

  /** Copies the present state. */
  save(): PartState {
    return {
      ducts: this.ducts.map(saveDuct),
      volumes: this.volumes.map(saveVolume),
      motion: this.motion(),
    };
  }

  /** Puts a state in as of a time [s], by relative position where the mesh or the length is another. */
  restore(state: PartState, time: number): void {
    this.ducts.forEach((duct, d) => {
      const field = state.ducts[d];
      if (field !== undefined) restoreDuct(duct, field);
    });
    this.volumes.forEach((volume, v) => {
      const content = state.volumes[v];
      if (content !== undefined) restoreVolume(volume, content, time);
    });
    if (state.motion.length > 0) this.setMotion(state.motion);
  }

  protected motion(): readonly number[] {
    return [];
  }

  protected setMotion(_motion: readonly number[]): void {}

  /** Opens the page of a new cycle. */
  openBook(): void {}

  /** Books a step that was accepted; the clock stands after it. */
  book(_clock: Clock): void {}
}
