/** A table whose headings sort it, and whose rows a choice of constraint hides. */

const keyOf = (row: HTMLTableRowElement, index: number): string =>
  row.cells[index]?.dataset.sort ?? row.cells[index]?.textContent ?? '';

/** Numbers before words, what is absent last whichever way. */
function compare(a: string, b: string, direction: 1 | -1): number {
  if (a === '' || b === '') return a === b ? 0 : a === '' ? 1 : -1;
  const [x, y] = [Number(a), Number(b)];
  const order = Number.isNaN(x) || Number.isNaN(y) ? a.localeCompare(b) : x - y;
  return direction * order;
}

export function sortable(id: string): void {
  const table = document.getElementById(id);
  if (!(table instanceof HTMLTableElement)) return;
  const body = table.tBodies[0];
  const headings = [...(table.tHead?.rows[0]?.cells ?? [])];
  headings.forEach((heading, index) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.append(...heading.childNodes);
    heading.append(button);
    button.addEventListener('click', () => {
      const direction = heading.getAttribute('aria-sort') === 'ascending' ? -1 : 1;
      for (const other of headings) other.removeAttribute('aria-sort');
      heading.setAttribute('aria-sort', direction === 1 ? 'ascending' : 'descending');
      const rows = [...(body?.rows ?? [])].sort((a, b) =>
        compare(keyOf(a, index), keyOf(b, index), direction),
      );
      body?.append(...rows);
    });
  });
}

/** Shows the rows that meet the chosen constraint: its number, `all` of them, or no matter which if empty. */
export function filtered(id: string, selectId: string): void {
  const select = document.getElementById(selectId);
  const table = document.getElementById(id);
  if (!(select instanceof HTMLSelectElement) || !(table instanceof HTMLTableElement)) return;
  select.addEventListener('change', () => {
    const { value } = select;
    for (const row of table.tBodies[0]?.rows ?? []) {
      const met = row.dataset.met ?? '';
      row.hidden = value === 'all' ? met.includes('0') : value !== '' && met.charAt(Number(value)) === '0';
    }
  });
}
