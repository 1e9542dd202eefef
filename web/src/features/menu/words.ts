export const words = {
  name: "More",
  story: "Story",
  wiring: "Wiring",
  record: "Record a reading",
  report: "Report",
  files: "Circuit as a file",
  share: "Share this job",
  jobs: "All jobs",
  settings: "Settings",
  noWake:
    "This browser cannot keep the screen awake. Set a longer screen time-out in the phone’s settings while you work.",
};
