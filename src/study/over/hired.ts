/** Lenders hired for a study: its queue on a server, as long as the study runs. */

import type { Job } from '../work/jobs.ts';
import type { Parcel } from '../work/parcel.ts';
import type { Pool } from '../work/pool.ts';
import { addressOf } from './address.ts';
import { arithmeticOf } from './arithmetic.ts';
import { cleanUp } from './clean-up.ts';
import { openCrew } from './crew.ts';
import { LenderBook } from './lender-book.ts';
import { openServer } from './server.ts';

export interface Hire {
  /** Address of the server as the user wrote it. */
  readonly over: string;
  readonly fingerprint: string;
  readonly kind: string;
  readonly name: string;
  readonly program: string;
  readonly parcelOf: (job: Job, index: number) => Parcel;
  readonly say: (text: string) => void;
}

export interface Hired {
  readonly pool: Pick<Pool, 'asFinished'>;
  readonly book: LenderBook;
  /** Address without user and password. */
  readonly shown: string;
  /** Takes everything of the study off the server. */
  clean(): Promise<void>;
  close(): Promise<void>;
}

export async function hire({ over, parcelOf, say, ...study }: Hire): Promise<Hired> {
  const address = addressOf(over, process.env);
  const server = await openServer(address, say);
  const book = new LenderBook();
  const announcement = { ...study, name: study.name.slice(0, 200), arithmetic: arithmeticOf() };
  return {
    pool: openCrew({ server, study: announcement, parcelOf, book, say }),
    book,
    shown: address.shown,
    clean: () => cleanUp(server, study.fingerprint),
    close: () => server.close(),
  };
}

/** What is said of lenders, and how. */
export interface LenderTalk {
  readonly message: (text: string) => void;
  /** Where lenders find the work, in a sentence. */
  readonly lenders: (address: string) => string;
}

/**
 * Does some work with lenders, or without where nobody is hired (null): says where they find it, leaves the server clean once all
 * is done, and tells what each did.
 */
export async function withLenders<T>(
  hiring: Hire | null,
  { message, lenders }: LenderTalk,
  work: (hired: Hired | null) => Promise<T>,
): Promise<T> {
  if (hiring === null) return work(null);
  const hired = await hire(hiring);
  let result: T;
  try {
    message(lenders(hired.shown));
    result = await work(hired);
    await hired.clean();
  } finally {
    await hired.close();
  }
  for (const line of lenderLines(hired.book)) message(line);
  return result;
}

/** What each lender did, in a line each. */
function lenderLines({ lines }: LenderBook): readonly string[] {
  return lines.map(
    ({ name, pieces, seconds, rate }) =>
      `${name}: ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}, ${seconds.toFixed(1)} s of work, ${rate.toFixed(1)} a minute.`,
  );
}
