/**
 * The day a page's file was written, as the browser knows it, in the title block. It stands in no file, so that the same
 * run gives the same bytes.
 */

const two = (value: number): string => String(value).padStart(2, '0');

export function fileDate(): void {
  const written = new Date(document.lastModified);
  const block = document.querySelector('.titleblock');
  if (block === null || Number.isNaN(written.getTime())) return;
  const field = document.createElement('div');
  field.className = 'minor';
  const name = document.createElement('dt');
  name.textContent = 'File of';
  const value = document.createElement('dd');
  value.textContent = `${written.getFullYear()}-${two(written.getMonth() + 1)}-${two(written.getDate())} ${two(written.getHours())}:${two(written.getMinutes())}`;
  field.append(name, value);
  block.append(field);
}
