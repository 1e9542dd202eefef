export const words = {
  name: "Circuit as a file",
  out: "Take it with you",
  wires: "Wiring list (CSV)",
  sheet: "Circuit (JSON)",
  netlist: "For a simulator (SPICE)",
  netlistAt: "The simulator’s file has the circuit as found, with these positions:",
  into: "Take a wiring list over",
  how: "A spreadsheet saved as CSV, one line a wire, headed: from, to, colour, mm2. A point is written X2.3, a splice SP1.2, the body earth.",
  open: "Open a wiring list",
  choose: {
    list: "Choose the wiring list of one circuit, saved as CSV: it ends in .csv.",
    sheet:
      "Choose the file of one circuit, as Footwell saves it under Circuit as a file: it ends in .json.",
  },
  isNo: {
    list: "It is a circuit and no list.",
    sheet:
      "It is no circuit of Footwell. A wiring list is taken over in an open job, under More, Circuit as a file.",
  },
  isJobs: "It is a file of jobs. Open it under Settings: Open a file.",
  openSheet: "Open a circuit file",
  count: (wires: number) => (wires === 1 ? "1 wire in the list." : `${wires} wires in the list.`),
  none: "The sheet has all of it already: nothing to change.",
  fresh: (names: string[]) => `New: ${names.join(", ")}.`,
  changed: (names: string[]) => `Changed: ${names.join(", ")}.`,
  take: "Take it over",
  taken: "Taken over. Undo takes it back.",
  saved: (name: string) => `Saved as ${name}.`,
  back: "Back",
};
