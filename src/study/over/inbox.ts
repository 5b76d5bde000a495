/**
 * What has come in and waits to be looked at, and the wait for more. A wait leaves nothing behind: a race against a signal
 * that is never aborted would keep every promise that it was raced against, and a study has hundreds of thousands.
 */

export class Inbox<Item> {
  readonly #items: Item[] = [];
  #wake: () => void = () => {};

  get isEmpty(): boolean {
    return this.#items.length === 0;
  }

  put(item: Item): void {
    this.#items.push(item);
    this.#wake();
  }

  take(): Item | undefined {
    return this.#items.shift();
  }

  /** Whether something has come within so long [ms]. Rejects with the signal's reason when that is aborted. */
  news(patience: number, signal?: AbortSignal): Promise<boolean> {
    if (!this.isEmpty) return Promise.resolve(true);
    const come = new Promise<boolean>((resolve) => {
      const timer = setTimeout(resolve, patience, false);
      this.#wake = () => {
        clearTimeout(timer);
        resolve(true);
      };
    });
    return unlessAborted(come, signal);
  }
}

/** What is promised, unless the signal is aborted first: then its reason is thrown. */
export async function unlessAborted<Value>(promise: Promise<Value>, signal?: AbortSignal): Promise<Value> {
  if (signal === undefined) return await promise;
  // Whoever is left waiting for a server that is away must not count as unhandled.
  promise.catch(() => {});
  signal.throwIfAborted();
  let stop = (): void => {};
  try {
    return await new Promise<Value>((resolve, reject) => {
      stop = () => reject(signal.reason);
      signal.addEventListener('abort', stop, { once: true });
      promise.then(resolve, reject);
    });
  } finally {
    signal.removeEventListener('abort', stop);
  }
}
