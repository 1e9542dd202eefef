export const words = {
  name: "The path so far",
  nothing: "Nothing was done in this job yet.",
  undo: "Undo",
  redo: "Bring it back",
  withdraw: (title: string) => `Undo: ${title}`,
  what: "What falls with it",
  only: "Only this falls. Nothing came after it.",
  rest: "Only this falls. What came after stays and is worked out anew:",
  keep: "Leave it",
  withdrawn: "withdrawn",
};
