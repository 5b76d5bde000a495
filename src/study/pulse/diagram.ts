/** Pressure over position and time, for a wave diagram: coarse, to a pascal, whatever the mesh and the step. */

import type { PulseDiagram } from './result.ts';
import type { Rig } from './rig.ts';
import { stretchAt } from './stretch.ts';
import { Watch } from './watch.ts';

const PLACES = 160;
const TIMES = 240;

export interface DiagramWatch {
  readonly watch: Watch;
  /** What was watched, once the march is over. */
  finish(): PulseDiagram;
}

export function watchDiagram(rig: Rig, until: number): DiagramWatch {
  const length = rig.stretches.at(-1)!.end;
  const positions = Array.from({ length: PLACES + 1 }, (_, k) => (length * k) / PLACES);
  const found = positions.map((position) => {
    const { duct, origin } = stretchAt(rig.stretches, position);
    return { duct, at: position - origin };
  });
  const state = new Float64Array(6);
  const row = {
    values: positions.length,
    read(out: Float64Array): void {
      found.forEach(({ duct, at }, k) => {
        duct.probe(at, state);
        out[k] = state[0]!;
      });
    },
  };
  const watch = new Watch([row], until / TIMES, until);
  return {
    watch,
    finish() {
      const traces = watch.traces[0]!;
      const pressure = watch.times.flatMap((_, t) => traces.map((trace) => Math.round(trace[t]!)));
      return { positions, times: watch.times, pressure };
    },
  };
}
