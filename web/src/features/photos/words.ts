export const words = {
  take: "Take a photo",
  choose: "Choose a stored photo",
  shrinking: "Making the photo small…",
  saved: "Photo saved on this phone.",
  none: "No photo came. If the camera does not open, allow it for this browser, or choose a picture.",
  already: "This photo is here already.",
  enough: (most: number) =>
    `This job has ${most} photos, as many as it can carry. Remove one that nobody needs.`,
  tooLarge:
    "Not taken over: this picture is larger than 20 MB. Set the camera to a smaller picture, or choose another.",
  tooManyPixels:
    "Not taken over: this picture has more than 40 megapixels. Set the camera to fewer, or choose another.",
  notPicture: "Not taken over: this file is no photo. Choose a JPEG or PNG picture.",
  unreadable: "Not taken over: this picture cannot be read here. Take it again, or choose another.",
  unable:
    "This browser cannot make photos small, so none can be kept. Everything else works as before.",
  list: "Photos",
  name: (half: string, shows: "half" | "old plug") =>
    shows === "half" ? half : `old plug of ${half}`,
  oldPlug: "old plug",
  open: (name: string, at: string) => ["Photo", name, at].filter(Boolean).join(", "),
  taken: (at: string) => at && `Taken ${at}`,
  missing: "not here",
  missingWhy:
    "This photo is not on this phone. Links carry no photos: open the job from a file that was saved where the photo was taken.",
  broken: "This photo cannot be shown. Its entry is still in the job.",
  gone: "Photo removed",
  goneMeans:
    "The report and files you save from now on leave it out. Its picture stays on this phone, for you to bring back, until the job is erased.",
  picture: "The photo",
  smaller: "Smaller",
  larger: "Larger",
  whole: "Whole",
  remove: "Remove",
  removePhoto: "Remove photo",
  back: "Back",
  count: (n: number) => (n === 1 ? "1 photo" : `${n} photos`),
};
