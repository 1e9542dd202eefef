export const words = { report: "Show the report" };
