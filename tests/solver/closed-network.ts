/**
 * A network without a way out: two ducts joined by a sudden change of area, a junction of three, a vessel behind a port, a
 * passage with a heavy gas column to a second vessel, and a last duct behind a port of that. Filled unevenly, with both
 * gases, so that everything moves.
 */

import {
  ConservativeDuct,
  fixedOpening,
  GasModel,
  type Link,
  meshTapers,
  Network,
  newFlow,
  rigidDrive,
  type Taper,
  Volume,
} from '../../solver/index.ts';
import type { DuctKind } from './toro.ts';

export function closedNetwork(
  gas: GasModel = GasModel.charge(1.85, 1.1),
  mixing = 0,
  Duct: DuctKind = ConservativeDuct,
): Network {
  const made = (name: string, cells: number, ...tapers: Taper[]): ConservativeDuct =>
    new Duct(name, gas, meshTapers(tapers, cells));
  const narrow = made('narrow', 30, { length: 0.15, diameter: [0.03, 0.04] });
  const wide = made(
    'wide',
    40,
    { length: 0.1, diameter: [0.06, 0.09] },
    { length: 0.1, diameter: [0.09, 0.05] },
  );
  const branch = made('branch', 24, { length: 0.12, diameter: [0.035, 0.035] });
  const feed = made('feed', 24, { length: 0.12, diameter: [0.04, 0.03] });
  const tail = made('tail', 20, { length: 0.1, diameter: [0.03, 0.02] });
  const first = new Volume('first', gas, rigidDrive(150e-6));
  const second = new Volume('second', gas, rigidDrive(300e-6));
  first.fill(0, 4e5, 1200, gas.perfect ? 0 : 1);
  second.fill(0, 0.8e5, 320, 0);
  const ducts = [narrow, wide, branch, feed, tail];
  ducts.forEach((duct, d) => {
    for (let i = 0; i < duct.cells; i++) {
      const x = (i + 0.5) / duct.cells;
      const burnt = gas.perfect ? 0 : 0.5 + 0.5 * Math.sin(9 * x + d);
      duct.setCell(i, 1e5 * (1.3 + 0.4 * Math.sin(7 * x + d)), 500 + 200 * Math.cos(5 * x + d), 0, burnt);
    }
  });
  const links: readonly Link[] = [
    { kind: 'closed', end: narrow.left },
    { kind: 'step', first: narrow.right, second: wide.left, contraction: 0.7 },
    { kind: 'junction', ends: [wide.right, branch.left, feed.left] },
    { kind: 'closed', end: branch.right },
    {
      kind: 'port',
      end: feed.right,
      volume: first,
      role: 'plain',
      opening: fixedOpening(3e-4),
      flow: newFlow(),
    },
    {
      kind: 'passage',
      from: first,
      to: second,
      toRole: 'plain',
      opening: fixedOpening(2e-4),
      inertance: 200,
      column: new Float64Array(2),
      flow: newFlow(),
    },
    {
      kind: 'port',
      end: tail.left,
      volume: second,
      role: 'plain',
      opening: fixedOpening(4e-4),
      flow: newFlow(),
    },
    { kind: 'closed', end: tail.right },
  ];
  return new Network(ducts, [first, second], links, 0.8, mixing);
}
