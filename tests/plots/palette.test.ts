import { describe, expect, it } from 'vitest';
import { dark, draftDashes, light } from '../../plots/theme/palette.ts';

describe('the colours of lines', () => {
  /** Relative luminance and contrast: WCAG 2.1, definitions of relative luminance and contrast ratio. */
  const luminance = (colour: string): number => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
      const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a: string, b: string): number => {
    const [x = 0, y = 0] = [luminance(a), luminance(b)].sort((p, q) => q - p);
    return (x + 0.05) / (y + 0.05);
  };

  it.each([
    ['light', light],
    ['dark', dark],
  ])('each stands 4.5 to 1 from the %s paper', (_, palette) => {
    for (const colour of [...Object.values(palette.line), ...palette.drafts, palette.ink, palette.faint])
      expect(contrast(colour, palette.paper)).toBeGreaterThanOrEqual(4.5);
  });

  it.each([
    ['light', light],
    ['dark', dark],
  ])('no two drafts of the %s palette share colour and dash', (_, palette) => {
    expect(palette.drafts).toHaveLength(draftDashes.length);
    const styles = palette.drafts.map((colour, i) => `${colour} ${draftDashes[i]}`);
    expect(new Set(styles).size).toBe(styles.length);
    // The first four are told apart by either alone.
    expect(new Set(palette.drafts.slice(0, 4)).size).toBe(4);
    expect(new Set(draftDashes.slice(0, 4)).size).toBe(4);
  });
});
