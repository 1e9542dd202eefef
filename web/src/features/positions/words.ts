export const words = {
  keep: "Keep what I saw",
  first: "Say what you saw",
  anytime: "What it does in each position",
  off: "off",
  othersOff: "everything else off",
  allOff: "everything off",
};
