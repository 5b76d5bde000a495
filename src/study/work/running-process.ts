/** Whether a process still runs, told by its number and, where the system says it, by when it began. */

import { readFileSync } from 'node:fs';

/** Whether there is a process of this number; one of another user's counts. */
export function isRunning(pid: number): boolean {
  if (!Number.isSafeInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/**
 * When a process began, in ticks of the system since it started; null where the system does not say (other than Linux).
 * Numbers are used again, so a process of the same number that began at another time is another one.
 */
export function beganAt(pid: number): number | null {
  try {
    // The name of the program, in brackets, may hold anything; the 22nd field is counted from behind it.
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const ticks = Number(stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19]);
    return Number.isFinite(ticks) ? ticks : null;
  } catch {
    return null;
  }
}
