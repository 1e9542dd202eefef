export const words = {
  name: "Record a reading",
  back: "Back",
  place: "Red lead on",
  wire: "Clamp around",
  black: "Black lead on",
  earth: "clean earth",
  value: "Reading",
  unit: "Unit",
  keep: (text: string) => `Keep ${text}`,
  first: "Place and reading first",
  why: "It is kept as typed and counted once Python is ready.",
};
