export const words = {
  name: "Why this value?",
  reading: "Working out why…",
  way: "The current’s way, and what falls along it",
  band: "What makes the band this wide",
  red: "Red lead here",
  black: "Black lead here",
  held: "Holds the voltage of this place",
  body: "Earth",
};
