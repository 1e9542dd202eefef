export const words = {
  name: "Suspects",
  proven: "Proven",
  possible: "Still possible",
  together: "Cannot be told apart with these readings",
  cleared: "Ruled out",
  mended: "Mended",
  none: "None of these",
  nothing: "none",
  by: (reading: string) => `by ${reading}`,
  parts: (check: string) => `Told apart by: ${check}`,
  later: "Nothing is worked out yet.",
};
