export const words = {
  what: "What did you do?",
  ways: [
    { what: "renewed", name: "I have renewed it" },
    { what: "mended", name: "I have mended it" },
    { what: "cleaned", name: "I have cleaned it" },
  ],
} as const;
