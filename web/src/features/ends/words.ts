export const words = {
  bySheet: "By the sheet",
  asDrawn: "Both as the sheet has them",
  otherwise: "Something is otherwise",
  cannotFind: "Cannot find them: go on",
  done: "It is where the sheet has it",
  what: "What is otherwise?",
  choose: "Choose",
  away: (wire: string, place: string) => `${wire} does not end at ${place}`,
  more: (place: string) => `One more wire ends at ${place}`,
  whereTo: "Where does it end?",
  whereFrom: "Follow it. Where does its other end sit?",
  keep: "Keep what I found",
  notListed:
    "A wire that the sheet does not have at all? Add it as a branch of this wire, under Circuit.",
  back: "Back",
  followed: "Follow it before you move anything. Where does its other end sit?",
  thisOne: "It is this wire",
} as const;
