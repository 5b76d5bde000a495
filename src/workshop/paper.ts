/** Paper sizes of ISO 216 that a drawing fits on, with a margin for the printer. */

const sizes: readonly (readonly [name: string, short: number, long: number])[] = [
  ['A4', 210, 297],
  ['A3', 297, 420],
  ['A2', 420, 594],
  ['A1', 594, 841],
  ['A0', 841, 1189],
];

/** Border that printers leave white [mm]. */
export const PRINT_MARGIN = 5;

/** Smallest paper for a drawing of this width and height [mm], either way round; null: none up to A0. */
export function paperFor(width: number, height: number): string | null {
  const [short, long] = [Math.min(width, height), Math.max(width, height)];
  const fitting = sizes.find(
    (size) => short + 2 * PRINT_MARGIN <= size[1] && long + 2 * PRINT_MARGIN <= size[2],
  );
  return fitting?.[0] ?? null;
}
