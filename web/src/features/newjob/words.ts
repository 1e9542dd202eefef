export const words = {
  name: "Which circuit?",
  back: "Back",
  reading: "Reading the list of circuits…",
  missing: "The list of circuits could not be read. With the network on, try again.",
  again: "Try again",
  volts: (volts: number) => `${volts} V`,
};
