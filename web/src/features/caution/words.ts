export const words = {
  passed: "Understood",
  intro: "Before you start",
};
