/**
 * A steady normal shock of upstream Mach number M in an ideal gas.
 *
 * Source: Ames Research Staff, NACA Report 1135 (1953), equations 93-100; from memory.
 */

/** Ratios across the shock, 2 behind over 1 ahead; `totalPressure` p02/p01, `upstreamOverTotal` p1/p02. */
export interface ShockRatios {
  readonly pressure: number;
  readonly density: number;
  readonly temperature: number;
  readonly mach: number;
  readonly totalPressure: number;
  readonly upstreamOverTotal: number;
}

/** Ratios across a normal shock of Mach number `mach` >= 1. */
export function normalShock(mach: number, gamma: number): ShockRatios {
  const m2 = mach * mach;
  const pressure = 1 + ((2 * gamma) / (gamma + 1)) * (m2 - 1);
  const density = ((gamma + 1) * m2) / ((gamma - 1) * m2 + 2);
  const machBehind = Math.sqrt((1 + ((gamma - 1) / 2) * m2) / (gamma * m2 - (gamma - 1) / 2));
  const totalPressure = density ** (gamma / (gamma - 1)) * pressure ** (-1 / (gamma - 1));
  const total1 = (1 + ((gamma - 1) / 2) * m2) ** (gamma / (gamma - 1));
  return {
    pressure,
    density,
    temperature: pressure / density,
    mach: machBehind,
    totalPressure,
    upstreamOverTotal: 1 / (totalPressure * total1),
  };
}
