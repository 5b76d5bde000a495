/**
 * Heat from a turbulent gas to the wall of a pipe.
 *
 *   Reynolds' analogy:  h = f/2 rho |u| cp  (Fanning f);   Colburn's: times Pr^(-2/3)
 *   Dittus-Boelter:     Nu = 0.023 Re^0.8 Pr^n,  n = 0.3 where the gas is cooled, 0.4 where heated
 *   Gnielinski:         Nu = (f_D/8)(Re - 1000) Pr / ( 1 + 12.7 sqrt(f_D/8) (Pr^(2/3) - 1) )
 *   Pulsating exhaust:  Nu = 0.07 Re^0.75, a fit to published measurements in engine ducts
 *
 * Source: F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 8, from memory; C. Depcik and D. Assanis,
 * SAE 2002-01-0372, for the pulsating flow.
 */

/** A flow in a pipe, SI: viscosity [Pa s], conductivity [W/(m K)], specificHeat [J/(kg K)]. */
export interface PipeFlow {
  readonly density: number;
  readonly velocity: number;
  readonly diameter: number;
  readonly viscosity: number;
  readonly conductivity: number;
  readonly specificHeat: number;
}

/** Re [-]. */
export function reynoldsNumber(flow: PipeFlow): number {
  return (flow.density * Math.abs(flow.velocity) * flow.diameter) / flow.viscosity;
}

/** Pr [-]. */
export function prandtlNumber(flow: PipeFlow): number {
  return (flow.viscosity * flow.specificHeat) / flow.conductivity;
}

/** Heat transfer coefficient by Reynolds' analogy [W/(m2 K)]. */
export function reynoldsAnalogy(flow: PipeFlow, fanning: number): number {
  return 0.5 * fanning * flow.density * Math.abs(flow.velocity) * flow.specificHeat;
}

/** Heat transfer coefficient by Colburn's analogy [W/(m2 K)]. */
export function colburnAnalogy(flow: PipeFlow, fanning: number): number {
  return reynoldsAnalogy(flow, fanning) * prandtlNumber(flow) ** (-2 / 3);
}

/** Nu by Dittus and Boelter [-]. */
export function dittusBoelter(reynolds: number, prandtl: number, gas: 'cooled' | 'heated'): number {
  return 0.023 * reynolds ** 0.8 * prandtl ** (gas === 'cooled' ? 0.3 : 0.4);
}

/** Nu by Gnielinski, from Darcy's friction factor [-]. */
export function gnielinski(reynolds: number, prandtl: number, darcy: number): number {
  const eighth = darcy / 8;
  return (eighth * (reynolds - 1000) * prandtl) / (1 + 12.7 * Math.sqrt(eighth) * (prandtl ** (2 / 3) - 1));
}

/** Nu of pulsating exhaust flow [-]. */
export function pulsatingNusselt(reynolds: number): number {
  return 0.07 * reynolds ** 0.75;
}

/** Heat transfer coefficient of a Nusselt number [W/(m2 K)]. */
export function heatTransferCoefficient(flow: PipeFlow, nusselt: number): number {
  return (nusselt * flow.conductivity) / flow.diameter;
}
