export const words = {
  name: "Settings",
  back: "Back",
  theme: "Light or dark",
  themes: [
    { value: "phone", name: "As the phone" },
    { value: "light", name: "Light" },
    { value: "dark", name: "Dark" },
  ],
  hand: "Hand that holds the phone",
  hands: [
    { value: "right", name: "Right" },
    { value: "left", name: "Left" },
  ],
  saveAll: "Save everything as a file",
  erase: "Erase a job or this phone",
  about: "About and notices",
  python: {
    loading: "Python is starting.",
    ready: "Python is ready.",
    failed: "Python did not start.",
  },
  start: "Start Python again",
} as const;
