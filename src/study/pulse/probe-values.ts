/** Slots of what a probe reads; the first four as a duct fills them. */
export const PROBE = {
  pressure: 0,
  velocity: 1,
  temperature: 2,
  density: 3,
  forward: 4,
  backward: 5,
} as const;
