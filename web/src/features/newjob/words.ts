export const words = {
  name: "Which circuit?",
  back: "Back",
  reading: "Reading the list of circuits…",
  missing: "The list of circuits could not be read. With the network on, try again.",
  again: "Try again",
  vehicle: (vehicle: string, volts: number) =>
    vehicle.includes(`${volts} V`) ? vehicle : `${vehicle}, ${volts} V`,
};
