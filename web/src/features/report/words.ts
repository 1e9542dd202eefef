export const words = {
  name: "Report",
  empty: "not recorded",
  print: "Print",
  later: "The report is made once Python is ready.",
};
