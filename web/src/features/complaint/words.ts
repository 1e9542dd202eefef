export const words = {
  name: "What does it do?",
  dead: "Dead in every position",
  rows: "Or say it for each position",
  now: "Is it so now?",
  nowAnswers: [
    { value: "yes", name: "Yes" },
    { value: "no", name: "No, it works" },
    { value: "comes and goes", name: "Comes and goes" },
  ],
  tools: "At hand",
  helper: "A second person can help",
  story: "More of the story",
  start: "Start",
  waiting: "Reading the circuit…",
} as const;
