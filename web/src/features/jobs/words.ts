import { words as photoWords } from "../photos/words";

export const words = {
  name: "Jobs",
  none: "No jobs on this phone yet.",
  newJob: "New job",
  settings: "Settings",
  openFile: "Open a file",
  link: "To open a job from a link, tap the link: it opens here as a new job.",
  where: "on this phone only",
  saved: (at: string) => (at ? `saved ${at}` : "saved"),
  entries: (count: number) => (count === 1 ? "1 entry" : `${count} entries`),
  offline: "Ready offline: works here without a network.",
  notOffline: "Not ready offline yet. Keep the network on for a moment.",
  update: "A new version is waiting. Your jobs stay as they are.",
  take: "Take the new version",
  safari:
    "Safari may delete everything after seven days of use without a visit. Add Footwell to the home screen, or share each job as a link or file.",
  exported: (at: string) => (at ? `Last exported ${at}.` : "Never exported yet."),
  refusedMore: (count: number) => `${count} more entries were left out.`,
  imported: (count: number, photos: number) =>
    count + photos === 0
      ? "Nothing new in that file: all of it was here."
      : `${[count > 0 && `${count} entries`, photos > 0 && photoWords.count(photos)].filter(Boolean).join(" and ")} added from the file.`,
  tooLarge:
    "The file is too large to be opened again on a phone. Save the jobs one by one, each under More, Share this job.",
  photosLeftOut: (count: number) =>
    `The file holds every entry, but not ${count === 1 ? "one photo" : `${count} photos`}: it would be too large to open. ` +
    "Save the older jobs one by one, each under More, Share this job.",
};
