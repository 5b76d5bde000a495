/** What the bench cannot make as it stands; the message says what to change. */
export class WorkshopError extends Error {
  override readonly name = 'WorkshopError';
  readonly exitCode = 2;
}
