export const words = {
  kept: "Kept",
  expected: (text: string) => `Expected ${text}`,
  next: "Next",
};
