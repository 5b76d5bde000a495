/** `bands.csv`: percentiles of every column at every speed, with the members that have a reading there. */

import type { MemberBands } from '../../findings/member-bands.ts';
import { csvText } from '../frame/csv.ts';

const HEAD = ['speed_rpm', 'column', 'p05', 'p25', 'p50', 'p75', 'p95', 'count'];

export const bandsCsv = ({ columns }: Pick<MemberBands, 'columns'>): string => csvText(HEAD, columns);

/** The same of several drafts, each line led by the draft's name. */
export const draftBandsCsv = (
  drafts: readonly { readonly name: string; readonly bands: Pick<MemberBands, 'columns'> }[],
): string =>
  csvText(
    ['draft', ...HEAD],
    drafts.flatMap(({ name, bands }) => bands.columns.map((one) => ({ draft: name, ...one }))),
  );
