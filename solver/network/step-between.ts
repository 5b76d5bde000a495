/** The link of two ducts of different area that meet at a sharp edge. */

import type { DuctEnd } from '../duct/duct-end.ts';
import { venaContracta } from '../ends/vena-contracta.ts';
import type { StepLink } from './link.ts';

export function stepBetween(first: DuctEnd, second: DuctEnd): StepLink {
  const narrow = Math.min(first.area, second.area);
  const wide = Math.max(first.area, second.area);
  return { kind: 'step', first, second, contraction: venaContracta(narrow / wide) };
}
