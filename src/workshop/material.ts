/** Sheets that pipes are made of: densities [kg/m3], values from memory. */
export const DENSITIES = {
  steel: 7850,
  stainless: 7900,
  titanium: 4510,
  aluminium: 2700,
} as const;

export type Material = keyof typeof DENSITIES;
