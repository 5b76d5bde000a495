/**
 * The keys of scavenging: one of several laws, by its name; two zones where none is stated. The two shares of a three-way stream
 * alone also stand for that law.
 */

import type { Scavenging } from '../../model/scavenging.ts';
import { list, variant } from '../keys/branches.ts';
import { share } from '../keys/leaves.ts';
import { assumed, record } from '../keys/record.ts';
import { checked, type Schema, within } from '../keys/schema.ts';
import type { Node } from '../text/tree.ts';

const NO_SOURCE = 'common practice, no source';
const part = share({ atLeast: '0', atMost: '1' });

const shortCircuit = assumed(
  part,
  'Share of the fresh stream that crosses straight to the exhaust.',
  '0.05',
  `0 to 0.15 are plausible; ${NO_SOURCE}`,
);

const twoZone = checked(
  record('two zones with a mixing volume', {
    mixingVolume: assumed(
      share({ above: '0', atMost: '1' }),
      'Share of the cylinder that is left to mix when the fresh stream has displaced the rest.',
      '0.57',
      `gives a scavenging efficiency of 0.79 at a scavenge ratio of 1 and 0.91 at 1.5, as good loop scavenging has; 0.4 to 0.8 are plausible; ${NO_SOURCE}`,
    ),
    shortCircuit,
  }),
  (keys): Scavenging => ({ by: 'twoZone', ...keys }),
);

const threeWay = checked(
  record('a stream of three parts', {
    displacement: assumed(
      part,
      'Share of the fresh stream that displaces without mixing.',
      '0.7',
      `gives a scavenging efficiency of 0.79 at a scavenge ratio of 1, between perfect mixing and perfect displacement; ${NO_SOURCE}`,
    ),
    shortCircuit,
  }),
  (keys, judge): Scavenging | undefined =>
    keys.displacement + keys.shortCircuit > 1
      ? judge.refuse([], 'displacement and shortCircuit are shares of one stream: together at most 1')
      : { by: 'threeWay', ...keys },
);

const MOST_POINTS = 50;

const table = checked(
  list(list(share({ above: '0', atMost: '20' }), 2, 2), 1, MOST_POINTS),
  (points, judge): Scavenging | undefined => {
    const pairs = points.map(([scavengeRatio, efficiency]) => ({
      scavengeRatio: scavengeRatio as number,
      efficiency: efficiency as number,
    }));
    for (const [k, { scavengeRatio, efficiency }] of pairs.entries()) {
      const before = pairs[k - 1] ?? { scavengeRatio: 0, efficiency: 0 };
      const came = scavengeRatio - before.scavengeRatio;
      const kept = efficiency - before.efficiency;
      if (!(came > 0 && kept > 0))
        return judge.refuse([k], 'scavenge ratio and efficiency have to grow from point to point');
      if (!(efficiency < 1)) return judge.refuse([k, 1], 'the efficiency stays below 1');
      if (kept > came * (1 + 1e-9))
        return judge.refuse([k], 'more would stay in the cylinder than came in: the efficiency grows faster');
    }
    return { by: 'table', points: pairs };
  },
);

const laws = variant<Scavenging>('a law of scavenging', { twoZone, threeWay, table });

/** A law by its name; or the keys of a stream of three parts alone. */
export const scavenging: Schema<Scavenging> = {
  takes: `${laws.takes}; or displacement and shortCircuit, which read as threeWay`,
  read(node, at) {
    if (node.kind !== 'map') return laws.read(node, at);
    if (node.entries.length === 0) return twoZone.read(node, within(at, 'twoZone'));
    return isStream(node) ? threeWay.read(node, at) : laws.read(node, at);
  },
  jsonSchema: () => ({ anyOf: [laws.jsonSchema(), threeWay.jsonSchema()] }),
};

function isStream(node: Node & { kind: 'map' }): boolean {
  return node.entries.every(({ key }) => key === 'displacement' || key === 'shortCircuit');
}
