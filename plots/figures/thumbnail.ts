/** A run in a thumb's breadth: one or two curves without axes, for the index. */

export interface ThumbCurve {
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
  /** Which style it takes: `torque`, `returning`… */
  readonly kind: 'torque' | 'power' | 'returning' | 'outgoing';
}

const size = { width: 160, height: 60, edge: 4 };

export function thumbnail(curves: readonly ThumbCurve[], title: string): string {
  const lines = curves.map((curve) => {
    const known = curve.x.flatMap((x, i) => {
      const y = curve.y[i];
      return typeof y === 'number' && Number.isFinite(y) ? [[x, y] as const] : [];
    });
    if (known.length < 2) return '';
    const xs = known.map(([x]) => x);
    const ys = known.map(([, y]) => y);
    const [left, right] = [Math.min(...xs), Math.max(...xs)];
    const [low, high] = [Math.min(...ys), Math.max(...ys)];
    const points = known.map(
      ([x, y]) =>
        `${(size.edge + ((x - left) / (right - left || 1)) * (size.width - 2 * size.edge)).toFixed(1)},${(size.height - size.edge - ((y - low) / (high - low || 1)) * (size.height - 2 * size.edge)).toFixed(1)}`,
    );
    return `<polyline class="thumb-${curve.kind}" points="${points.join(' ')}"/>`;
  });
  return `<svg class="thumb" role="img" aria-label="${title}" viewBox="0 0 ${size.width} ${size.height}" preserveAspectRatio="none">${lines.join('')}</svg>`;
}
