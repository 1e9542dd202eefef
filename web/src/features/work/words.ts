export const words = {
  waiting: "Working out what to measure…",
  waitingLong: "The first answer takes a few seconds. You can record a reading meanwhile.",
  failed: "Nothing can be worked out just now. What you record is kept and counted later.",
  record: "Record a reading",
  again: "Try again",
};
