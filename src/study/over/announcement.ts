/** A study that wants lenders, as they find it on the server. */

import type { Server } from './server.ts';
import { GONE, STUDIES, wipe } from './server.ts';

export interface Announcement {
  readonly fingerprint: string;
  readonly kind: string;
  readonly name: string;
  readonly program: string;
  readonly arithmetic: string;
}

const MOST = 200;

/** Puts a study up; one that is up already stays. */
export async function announce(server: Server, study: Announcement): Promise<void> {
  await server.queue(STUDIES).add('study', study, { jobId: study.fingerprint, ...GONE });
}

export async function withdraw(server: Server, fingerprint: string): Promise<void> {
  const studies = server.queue(STUDIES);
  await studies.remove(fingerprint);
  // The last one leaves nothing behind; a study put up meanwhile is put up again by its gatherer.
  if ((await studies.getWaitingCount()) === 0) await wipe(server, STUDIES);
}

/** The studies that are up; what is none is left out. */
export async function announced(server: Server): Promise<readonly Announcement[]> {
  const jobs = await server.queue(STUDIES).getJobs(['waiting'], 0, MOST, true);
  return jobs.flatMap(({ data }) => (isAnnouncement(data) ? [data] : []));
}

function isAnnouncement(data: unknown): data is Announcement {
  if (typeof data !== 'object' || data === null) return false;
  const { fingerprint, ...texts } = data as Record<string, unknown>;
  if (typeof fingerprint !== 'string' || !/^[0-9a-f]{64}$/.test(fingerprint)) return false;
  return ['kind', 'name', 'program', 'arithmetic'].every((key) => {
    const text = texts[key];
    return typeof text === 'string' && text.length <= 500;
  });
}
