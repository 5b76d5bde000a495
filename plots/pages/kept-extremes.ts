/**
 * Long series made short without losing their peaks: of each stretch of samples the highest and the lowest of every
 * series are kept, so that what is drawn reaches as high as what was computed.
 */

/** Indices to keep of series of one length, in their order; about `most` of them. */
export function keptExtremes(series: readonly (readonly number[])[], most: number): readonly number[] {
  const count = series[0]?.length ?? 0;
  if (count <= most) return Array.from({ length: count }, (_, i) => i);
  const stretches = Math.max(1, Math.floor(most / (2 * series.length)));
  const kept = new Set<number>([0, count - 1]);
  for (let k = 0; k < stretches; k++) {
    const from = Math.floor((k * count) / stretches);
    const to = Math.floor(((k + 1) * count) / stretches);
    for (const values of series) {
      let [low, high] = [from, from];
      for (let i = from; i < to; i++) {
        if ((values[i] ?? 0) < (values[low] ?? 0)) low = i;
        if ((values[i] ?? 0) > (values[high] ?? 0)) high = i;
      }
      kept.add(low).add(high);
    }
  }
  return [...kept].sort((a, b) => a - b);
}
