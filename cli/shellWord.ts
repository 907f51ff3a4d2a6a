/** A word as a line to be pasted must have it: quoted where a shell would split or change it. */
export function shellWord(text: string): string {
  return /^[\w./:@%+,=-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`;
}
