export const words = {
  name: "Practice",
  pick: "Practise on which circuit?",
  intro:
    "Footwell hides a fault in a circuit. You choose what to measure, it answers the readings. No vehicle is needed.",
  hiding: "Hiding a fault…",
  starting: "Python is starting. Then a fault is hidden.",
  measure: "Measure",
  look: "Look",
  tryAll: "Try every position",
  inside: "Look inside",
  reveal: "Show what was hidden",
  hidden: "What was hidden",
  left: "Still there",
  nothingLeft: "All of it is mended.",
  own: "Your road",
  footwells: "Footwell’s road from the same start",
  nothingDone: "Nothing measured yet.",
  working: "Working out the other road…",
  cost: (checks: number, minutes: number) =>
    `${checks} ${checks === 1 ? "check" : "checks"}, about ${minutes} min at a real vehicle, repairs not counted`,
  back: "Back",
  again: "Practise once more",
};
