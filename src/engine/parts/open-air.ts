/** The end of a pipe in the open air. */

import { type DuctEnd, type Link, newFlow, type Reservoir } from '../../../solver/index.ts';
import { EnginePart } from './part.ts';

export class OpenAir extends EnginePart {
  override readonly links: readonly Link[];

  constructor(end: DuctEnd, air: Reservoir) {
    super();
    this.links = [{ kind: 'atmosphere', end, reservoir: air, share: 1, flow: newFlow() }];
  }

  startCold(): void {}
}
