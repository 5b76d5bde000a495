/**
 * What the pool starts on a thread: it loads the worker with import(), at once and not when the first job comes.
 *
 * Piscina require()s the file it is given. Node 20 requires an ES module on one synchronous path, and a thread that is
 * ended while it is on that path takes the whole process down ("IsGraphAsync must be used on an instantiated module",
 * seen with 20.20.2 when a study was interrupted within its first tenth of a second). The path of import() has no such
 * hole, so the file that is required is CommonJS and holds nothing else.
 */

const loading = import('./worker.ts');
// Where it fails the first job hears of it.
loading.catch(() => {});

async function work(job: never): Promise<unknown> {
  const worker = await loading;
  return worker.work(job);
}

module.exports = { work };
