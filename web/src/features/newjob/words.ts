export const words = {
  name: "Which circuit?",
  about: "What is it about?",
  all: "all",
  search: "Or type what it is",
  nothing: "No circuit of the library says that. Try one word less.",
  noDiagram: "No diagram, none of these",
  diagram: "From a diagram",
  odd: (title: string) => `${title} can be used. Look at these first:`,
  use: "Use it as it is",
  back: "Back",
  reading: "Reading the list of circuits…",
  missing: "The list of circuits could not be read. With the network on, try again.",
  unread: "This circuit could not be read. With the network on, try again.",
  again: "Try again",
  vehicle: (vehicle: string, volts: number) =>
    vehicle.includes(`${volts} V`) ? vehicle : `${vehicle}, ${volts} V`,
};
