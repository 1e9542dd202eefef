export const words = {
  enter: "Enter reading",
  another: "Another check",
  cannot: "Cannot do it",
  expected: "expected if sound",
  proposed: "Back to the proposed check",
  why: "Why this check",
  along: "While you are there",
  there: "Is the complaint there right now?",
};
