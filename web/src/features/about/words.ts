export const words = {
  name: "About Footwell",
  what: "Footwell finds the cause of a dead low-voltage circuit in a vehicle. It does the thinking and the arithmetic; you do the looking and the measuring.",
  where: "All it knows of a job stays on this phone until you share it.",
  release: (name: string) => `Release ${name}`,
  notices: "Notices of the parts it is made of",
  back: "Back",
};
