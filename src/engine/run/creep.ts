/**
 * How far a creeping engine has still to go. At the edge of its band an engine can near its settled state by a fifth of a per
 * cent a cycle for a hundred cycles: four of them look quiet, and are off by several per cent. Where the means m1, m2, m3 of three
 * equal stretches of cycles go one way, the rest of the way is that of a geometric series,
 *
 *     d q / (1 - q),   d = m3 - m2,  q = d / (m2 - m1) < 1
 *
 * (Aitken's extrapolation; E. T. Whittaker & G. Robinson, The Calculus of Observations; from memory).
 */

/** A creep that does not grow less is taken to go on for some twenty stretches. */
const SLOWEST = 0.95;

/** What a series, oldest first, has still to go beyond its last third's mean; 0 where its thirds do not go one way. */
export function remainderOf(series: readonly number[]): number {
  const third = Math.floor(series.length / 3);
  if (third === 0) return 0;
  const mean = (from: number): number =>
    series.slice(from, from + third).reduce((sum, one) => sum + one, 0) / third;
  const begin = series.length - 3 * third;
  const [first, middle, last] = [mean(begin), mean(begin + third), mean(begin + 2 * third)];
  const [before, step] = [middle - first, last - middle];
  if (!(before * step > 0)) return 0;
  const ratio = Math.min(step / before, SLOWEST);
  return (step * ratio) / (1 - ratio);
}
