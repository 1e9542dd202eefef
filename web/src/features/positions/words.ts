export const words = {
  keep: "Keep what I saw",
  first: "Say what you saw",
  which: "Which of them did you look at?",
  anytime: "What it does in each position",
  off: "off",
  othersOff: "everything else off",
  allOff: "everything off",
};
