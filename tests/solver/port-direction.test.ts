/** A port of different area in the two directions: each flow takes its own. Ring: identity (derived here). */

import { expect, test } from 'vitest';
import { FLOW, type Link, Network, newFlow, rigidDrive, Volume } from '../../solver/index.ts';
import { AIR, fill, linkOf, reservoirOf, straight } from '../../src/verify/rig/rig.ts';

/** Mass flow out of a vessel at a pressure through a port of two areas, after a millisecond [kg/s]. */
function flow(pressure: number, areaOut: number, areaIn: number): number {
  const duct = straight(1, 50);
  fill(duct, () => ({ pressure: 1e5, temperature: 300 }));
  const vessel = new Volume('vessel', AIR, rigidDrive(1));
  vessel.fill(0, pressure, 300, 0);
  const port: Link = {
    kind: 'port',
    end: duct.left,
    volume: vessel,
    role: 'plain',
    opening: { areaOut, areaIn, set: () => undefined },
    flow: newFlow(),
  };
  const endless = reservoirOf(AIR, 1e5, 300);
  new Network([duct], [vessel], [port, linkOf(duct, 'right', { endless })], 0.9).marchTo(1e-3);
  return port.flow[FLOW.mass]!;
}

test('out of the vessel by the one area, into it by the other', () => {
  expect(flow(1.3e5, 1e-4, 0)).toBeGreaterThan(0.005);
  expect(Math.abs(flow(1.3e5, 0, 1e-4))).toBe(0);
  expect(flow(0.8e5, 0, 1e-4)).toBeLessThan(-0.005);
  expect(Math.abs(flow(0.8e5, 1e-4, 0))).toBe(0);
  expect(flow(1.3e5, 1e-4, 5e-4)).toBe(flow(1.3e5, 1e-4, 0));
});
