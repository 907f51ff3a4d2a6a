const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** "25 November 2026" of an ISO 8601 time, as its own clock told it. */
export function dayOf(at: string): string {
  const [year, month, day] = at.slice(0, 10).split("-").map(Number);
  return `${String(day)} ${MONTHS[month - 1] ?? ""} ${String(year)}`;
}

/** "2026-11-25 14:05 (UTC+01:00)": date, clock and its offset. */
export function timeOf(at: string): string {
  const offset = /(?:Z|[+-]\d\d:\d\d)$/.exec(at)?.[0] ?? "";
  return `${at.slice(0, 10)} ${at.slice(11, 16)}${offset === "" ? "" : ` (UTC${offset === "Z" || offset === "+00:00" ? "" : offset})`}`;
}
