/** The computed speed that lies nearest to a wanted one [rpm]; none wanted: about the middle one. */

export const nearestTo = (speeds: readonly number[], wanted: number | null): number => {
  const middle = speeds[Math.floor(speeds.length / 2)] ?? 0;
  const about = wanted ?? middle;
  return speeds.reduce((best, rpm) => (Math.abs(rpm - about) < Math.abs(best - about) ? rpm : best), middle);
};
