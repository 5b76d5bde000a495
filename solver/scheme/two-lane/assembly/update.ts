// The conservative update of ../../conservative/advance.ts.

import { add, at, at1, at2, both, lane0, lane1, mul, put, size, sub } from "./lanes";
import { Duct } from "./layout";

export function update(d: Duct): void {
  const n = d.cells, dt = both(d.dt), second = d.parity != 0, mixed = d.mixed != 0;
  const density = second ? d.density1 : d.density0, nextDensity = second ? d.density0 : d.density1;
  const momentum = second ? d.momentum1 : d.momentum0, nextMomentum = second ? d.momentum0 : d.momentum1;
  const energy = second ? d.energy1 : d.energy0, nextEnergy = second ? d.energy0 : d.energy1;
  const burnt = second ? d.burnt1 : d.burnt0, nextBurnt = second ? d.burnt0 : d.burnt1;
  const massFlux = d.massFlux, momentumFlux = d.momentumFlux, energyFlux = d.energyFlux, burntFlux = d.burntFlux;
  const pStar = d.pStar, uStar = d.uStar, faceArea = d.faceArea, inverseVolume = d.inverseVolume;
  let heated = both(0);
  for (let j = 0; j < n; j += 2) {
    const again = j == n - 1;
    const b = <usize>(again ? n - 2 : j) << 3;
    const over = mul(dt, at(inverseVolume, b));
    const rho = at(density, b);
    const mean = mul(both(0.5), add(at(uStar, b), at1(uStar, b)));
    const drag = mul(mul(at(d.frictionOverD, b), rho), mul(size(mean), mean));
    const heat = mul(at(d.heatOverD, b), sub(at(d.wallTemperature, b), at2(d.T, b)));
    const area = mul(both(0.5), add(at(faceArea, b), at1(faceArea, b)));
    const push = add(sub(at1(momentumFlux, b), at(momentumFlux, b)), mul(area, sub(at1(pStar, b), at(pStar, b))));
    put(nextDensity, b, sub(rho, mul(over, sub(at1(massFlux, b), at(massFlux, b)))));
    put(nextMomentum, b, sub(sub(at(momentum, b), mul(over, push)), mul(dt, drag)));
    put(nextEnergy, b, add(sub(at(energy, b), mul(over, sub(at1(energyFlux, b), at(energyFlux, b)))), mul(dt, heat)));
    if (mixed) put(nextBurnt, b, sub(at(burnt, b), mul(over, sub(at1(burntFlux, b), at(burntFlux, b)))));
    const taken = mul(heat, at(d.volume, b));
    heated = add(heated, again ? f64x2.replace_lane(taken, 0, 0) : taken);
  }
  d.heatTaken = (lane0(heated) + lane1(heated)) * d.dt;
}
