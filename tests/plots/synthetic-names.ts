/** SYNTHETIC: names and numbers that all invented inputs share. */

export const program = 'echocone (synthetic data of a test)';
export const nasty = '<script>alert(1)</script> & "Söhne"';
export const namer =
  (hostile: boolean) =>
  (text: string): string =>
    hostile ? nasty : text;

export const evenly = (count: number, from: number, to: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
