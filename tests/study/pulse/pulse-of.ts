/** A pulse as the case loader would give it, with what a test does not state filled in. */

import type { Pulse, PulseSection } from '../../../src/model/pulse.ts';

export type Stated = Partial<Omit<Pulse, 'sections'>> & {
  readonly sections: readonly (Partial<PulseSection> & Pick<PulseSection, 'length' | 'diameter'>)[];
};

export function pulseOf(stated: Stated): Pulse {
  const ambient = stated.ambient ?? { pressure: 1e5, temperature: 300 };
  return {
    name: 'a test',
    gas: { kind: 'perfect', gamma: 1.4, gasConstant: 287 },
    ambient,
    leftEnd: { kind: 'closed' },
    rightEnd: { kind: 'closed' },
    friction: false,
    wallHeat: 'none',
    wallTemperature: ambient.temperature,
    roughness: 0,
    mixing: 0,
    probes: [],
    until: 1e-3,
    sampleEvery: 5e-6,
    profilesAt: [],
    cell: 5e-3,
    courant: 0.8,
    scheme: 'conservative',
    kernel: 'auto',
    ...stated,
    sections: stated.sections.map((section, k) => ({
      name: `section ${k + 1}`,
      step: k > 0 && stated.sections[k - 1]!.diameter[1] !== section.diameter[0],
      pressure: ambient.pressure,
      temperature: ambient.temperature,
      velocity: 0,
      ...section,
    })),
  };
}
