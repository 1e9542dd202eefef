export const words = {
  waiting: "Working out what to measure…",
  meanwhile: "You can record a reading meanwhile.",
  stopped: "Record and go on",
  failed: "Nothing can be worked out just now. What you record is kept and counted later.",
  record: "Record a reading",
  again: "Try again",
  large: (parts: number) =>
    `This sheet has ${parts} parts. The first answers take longest: every fault of every part and wire is tried in every position. Later ones are quicker.`,
};
