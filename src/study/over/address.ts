/**
 * Where a queue's server is: `redis://host:port`, or `rediss://` for TLS. User and password come with the address or,
 * better since other users of a machine can list command lines, from ECHOCONE_QUEUE_USER and ECHOCONE_QUEUE_PASSWORD.
 * What is shown of an address never holds them.
 */

export interface Address {
  readonly host: string;
  readonly port: number;
  readonly database: number;
  readonly tls: boolean;
  readonly user: string | null;
  readonly password: string | null;
  /** Fit to be printed. */
  readonly shown: string;
}

const EXAMPLE = 'redis://host:6379, or rediss:// for TLS';

/** @throws Error with the exit code of a wrong command line */
export function addressOf(text: string, environment: Readonly<Record<string, string | undefined>>): Address {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    throw wrong();
  }
  const tls = url.protocol === 'rediss:';
  const database = url.pathname.replace(/^\//, '');
  if ((!tls && url.protocol !== 'redis:') || url.hostname === '' || !/^\d{0,4}$/.test(database))
    throw wrong();
  const port = url.port === '' ? 6379 : Number(url.port);
  const told = (part: string, name: string): string | null =>
    part !== '' ? decodeURIComponent(part) : (environment[name] ?? null);
  return {
    host: url.hostname.replace(/^\[|\]$/g, ''),
    port,
    database: Number(database),
    tls,
    user: told(url.username, 'ECHOCONE_QUEUE_USER'),
    password: told(url.password, 'ECHOCONE_QUEUE_PASSWORD'),
    shown: `${url.protocol}//${url.hostname}:${port}${database === '' ? '' : `/${database}`}`,
  };
}

function wrong(): Error {
  return Object.assign(new Error(`--over takes the address of a queue's server, such as ${EXAMPLE}.`), {
    exitCode: 2,
  });
}
