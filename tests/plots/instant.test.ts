/** Identity: where an instant lies in a drawn figure, by hand. */

import { describe, expect, it } from 'vitest';
import { instant } from '../../plots/marks/instant.ts';

const layout = {
  width: 500,
  height: 300,
  margin: { l: 40, r: 60, t: 20, b: 80 },
  xaxis: { range: [80, 440] as const, domain: [0.25, 1] as const },
  yaxis: { range: [0, 360] as const, domain: [0, 0.5] as const },
};

describe('an instant', () => {
  it('is an upright hair over the whole plot where the crank axis lies', () => {
    expect(instant(layout, 260, 'x')).toEqual({ left: 290, top: 20, width: 1, height: 200 });
  });

  it('is a level hair across its panel where the crank axis stands', () => {
    expect(instant(layout, 90, 'y')).toEqual({ left: 140, top: 195, width: 300, height: 1 });
  });

  it('is not drawn beyond what the figure shows, zoomed or not', () => {
    expect(instant(layout, 441, 'x')).toBeNull();
    expect(instant(layout, Number.NaN, 'x')).toBeNull();
    expect(instant({ ...layout, xaxis: { range: [200, 250] } }, 260, 'x')).toBeNull();
  });
});
