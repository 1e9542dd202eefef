export const words = {
  proof: "What proves it",
  reasons: "Why it failed",
  open: "Still open",
};
