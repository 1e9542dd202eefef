export const words = {
  name: "Volts along the path",
  reading: "Working out what ought to fall where…",
  band: "A sound circuit: 95 of 100 readings",
  measured: "Measured",
  suspect: (title: string) => `If: ${title}`,
  chart: "Volts at each place, from the supply down to earth",
  spoken: (name: string, band: string) => `${name}: ${band} if all is well`,
  spokenRead: (name: string, band: string, read: string, outside: boolean) =>
    `${name}: ${read} measured, ${outside ? "outside" : "inside"} ${band}`,
};
