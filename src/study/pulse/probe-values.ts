/** Slots of what a duct answers a probe with. */
export const PROBE = { pressure: 0, velocity: 1, temperature: 2, density: 3 } as const;
