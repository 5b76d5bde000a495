/** A chamber behind the end of a duct, with a tube out of it: a silencer. What comes next is built on its `outlet`. */

import {
  type DuctEnd,
  fixedOpening,
  type GasModel,
  type Link,
  type MarchingDuct,
  newDuct,
  newFlow,
  type Opening,
  rigidDrive,
  Volume,
} from '../../../solver/index.ts';
import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { type DuctRun, meshRun } from '../../pipe/exhaust.ts';
import { type ColdStart, EnginePart } from './part.ts';
import { fillDuct } from './saved.ts';

/** Length of a silencer's outlet tube, which the case does not ask for [m]. */
const OUTLET_LENGTH = 0.08;

export class Silencer extends EnginePart {
  override readonly ducts: readonly MarchingDuct[];
  override readonly volumes: readonly Volume[];
  override readonly links: readonly Link[];
  readonly outlet: DuctEnd;

  constructor(
    silencer: NonNullable<Pipe['silencer']>,
    { pipe, run }: Case,
    gas: GasModel,
    { inlet, cell }: { readonly inlet: DuctEnd; readonly cell: number },
  ) {
    super();
    const chamber = new Volume('silencer', gas, rigidDrive(silencer.volume));
    const diameter = silencer.outletDiameter;
    const length = OUTLET_LENGTH + 0.5 * pipe.endCorrection * diameter;
    const piece: DuctRun = { name: 'outlet', start: 0, tapers: [{ length, diameter: [diameter, diameter] }] };
    const losses = { friction: run.friction, heat: 'none', roughness: pipe.roughness } as const;
    const tube = newDuct(run.scheme, 'outlet', gas, meshRun(piece, cell), losses, true, run.kernel);
    const port = (end: DuctEnd, opening: Opening): Link => ({
      kind: 'port',
      end,
      volume: chamber,
      role: 'plain',
      opening,
      flow: newFlow(),
    });
    this.volumes = [chamber];
    this.ducts = [tube];
    this.links = [
      port(inlet, fixedOpening(inlet.area)),
      port(tube.left, outletOf(tube.left.area, silencer.discharge)),
    ];
    this.outlet = tube.right;
  }

  startCold({ time, ambient, tailTemperature }: ColdStart): void {
    for (const duct of this.ducts) fillDuct(duct, ambient.pressure, tailTemperature, 1);
    for (const volume of this.volumes) volume.fill(time, ambient.pressure, tailTemperature, 1);
  }
}

/** From a silencer into its outlet the stream contracts; the other way it leaves as a jet that fills the pipe. */
function outletOf(area: number, discharge: number): Opening {
  return { set: () => undefined, areaOut: discharge * area, areaIn: area };
}
