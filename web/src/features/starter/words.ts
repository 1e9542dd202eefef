import type { StarterWanted } from "../../app/types";

export const words = {
  name: "No diagram",
  intro: "Four answers are enough to begin. What lies between is filled in as you find it.",
  load: "What does not work?",
  loads: [
    { value: "fan", name: "Fan" },
    { value: "lamp", name: "Lamp" },
    { value: "pump", name: "Pump" },
    { value: "heater", name: "Heater" },
    { value: "lock or window", name: "Lock or window" },
    { value: "horn", name: "Horn" },
    { value: "starter", name: "Starter" },
    { value: "sensor", name: "Sensor, 5 V" },
    { value: "other", name: "Valve or other" },
  ] satisfies { value: StarterWanted["load"]; name: string }[],
  volts: "Vehicle",
  voltages: [
    { value: 12, name: "12 V" },
    { value: 24, name: "24 V" },
  ] satisfies { value: StarterWanted["volts"]; name: string }[],
  positions: "Positions of its switch, off too",
  relay: "A relay in it?",
  relays: [
    { value: false, name: "No, or not known" },
    { value: true, name: "Yes" },
  ],
  sensors:
    "A data line, or a sensor with two wires: choose the circuit that is nearest from the list.",
  make: "Make the sheet",
  choose: "Choose what does not work",
  back: "Back",
};
