/** Which of the core's instruments can be used with what is at hand. */

import { tools } from "../../app/facts";
import { instruments } from "../../app/prefs";

const READS = [
  { value: "volts", name: "Volts", needs: "meter" },
  { value: "test lamp", name: "Test lamp", needs: "test lamp" },
  { value: "ohms", name: "Ohms", needs: "meter" },
] as const;

export function instrumentsAtHand() {
  const atHand = tools.value?.instruments ?? instruments.value;
  return READS.filter(({ needs }) => atHand.includes(needs));
}
