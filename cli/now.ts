/** The time of day on this machine, ISO 8601 with its offset, to the second. */
export function now(): string {
  const time = new Date();
  const offset = -time.getTimezoneOffset();
  const two = (value: number): string => String(Math.trunc(Math.abs(value))).padStart(2, "0");
  const local = new Date(time.getTime() + offset * 60_000).toISOString().slice(0, 19);
  return `${local}${offset < 0 ? "-" : "+"}${two(offset / 60)}:${two(offset % 60)}`;
}
