/** Times for display only; nothing is ever ordered by them. */

const clock = new Intl.DateTimeFormat(undefined, { hour: "2-digit", minute: "2-digit" });
const day = new Intl.DateTimeFormat(undefined, { day: "numeric", month: "short" });

/** "14:07" today, "3 Mar, 14:07" on another day, nothing where the time is not known. */
export function timeOf(at: string, now = new Date()): string {
  const then = new Date(at);
  if (at === "" || Number.isNaN(then.getTime())) return "";
  if (then.toDateString() === now.toDateString()) return clock.format(then);
  return `${day.format(then)}, ${clock.format(then)}`;
}
