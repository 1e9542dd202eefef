export const words = {
  name: "Why can it not be done?",
  back: "Back",
  reasons: [
    { reason: "cannot reach", name: "I cannot reach it" },
    { reason: "no instrument", name: "I lack the instrument" },
    { reason: "alone", name: "It needs a second person" },
    { reason: "other", name: "Another reason" },
  ],
} as const;
