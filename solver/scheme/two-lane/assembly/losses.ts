// Wall friction, losses of shape and the heat of pulsating flow, as ../../conservative/cell-losses.ts; the roughness term of Haaland's formula is
// the duct's own and does not change.

import { Duct, GHOSTS } from "./layout";

const LAMINAR_BELOW: f64 = 2300;

export function refreshLosses(d: Duct): void {
  const n = d.cells, r = d.r, u = d.u, T = d.T;
  for (let i = 0; i < n; i++) {
    const k = i + GHOSTS;
    const D = d.diameter[i];
    const t = T[k] / 273.15;
    const power = t * Math.sqrt(t);
    const viscosity = (1.716e-5 * power * (273.15 + 110.4)) / (T[k] + 110.4);
    const reynolds = (r[k] * Math.abs(u[k]) * D) / viscosity;
    const shape = u[k] < 0 ? d.shapeBack[i] : d.shapeAhead[i];
    d.shapeNow[i] = shape;
    if (d.friction) {
      const inverse = -1.8 * Math.log10(d.roughTerm[i] + 6.9 / Math.max(reynolds, LAMINAR_BELOW));
      d.frictionOverD[i] = 0.5 / (inverse * inverse) / D + shape;
    } else d.frictionOverD[i] = shape;
    if (!d.pulsatingHeat) continue;
    const conductivity = (0.0241 * power * (273.15 + 194)) / (T[k] + 194);
    const root = Math.sqrt(reynolds);
    d.heatOverD[i] = (4 * d.heatFactor[i] * ((0.07 * root * Math.sqrt(root) * conductivity) / D)) / D;
  }
}
