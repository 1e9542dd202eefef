export const words = {
  name: "Another check",
  none: "No other check would help just now.",
  place: "Any place on the circuit",
  back: "Back",
  minutes: (minutes: number) => `about ${Math.max(1, Math.round(minutes))} min`,
};
