/** Flags of bands: how many members, or which, and who computes them. */

import { UsageError } from './exit-codes.ts';

const LEAST = 8;
const MOST = 10_000;

/** A number of members. */
function membersFlag(text: string): number {
  const count = Number(text);
  if (Number.isInteger(count) && count >= LEAST && count <= MOST) return count;
  throw new UsageError(`"${text}" must be a whole number from ${LEAST} to ${MOST}.`);
}

export const bandFlags = {
  bands: {
    member: 'bands',
    syntax: '--bands [n]',
    help: 'also run n members of what is not known exactly, for how sure the answer is (default: 64)',
    read: membersFlag,
    preset: '64',
  },
  members: {
    member: 'members',
    syntax: '--members <file>',
    help: 'bands over the members of this file, members.csv, in place of drawn ones',
  },
  overMembers: {
    member: 'over',
    syntax: '--over <address>',
    help: 'have lenders compute the members of bands, over a queue: redis://host:6379, rediss:// for TLS; the password by ECHOCONE_QUEUE_PASSWORD',
  },
} as const;
