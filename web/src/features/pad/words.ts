export const words = {
  expected: (text: string) => `if sound ${text}`,
  nothing: "Type the reading",
  noNumber: "That is not a number yet. Type the digits the meter shows.",
  unweighed: "Kept as typed. It is weighed once Python is ready.",
  asExpected: "As expected",
  notAsExpected: "Not as expected",
  noted: "Noted",
  asTyped: (text: string) => `Keep ${text} as typed`,
  keep: (text: string) => `Keep ${text}`,
  offer: (text: string) => `It was ${text}`,
};
