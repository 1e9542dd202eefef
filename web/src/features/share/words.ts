export const words = {
  name: "Share this job",
  making: "Making the link…",
  inside: "The whole job is in the link itself. Nothing is sent anywhere until you send it.",
  length: (length: number) => `The link has ${length} characters.`,
  onlyInFile: (count: number) =>
    `${count === 1 ? "One entry holds" : `${count} entries hold`} something from a newer Footwell ` +
    "that a link leaves out. The file keeps everything: better send the file.",
  photos: (count: number) =>
    `A link carries no photos: it leaves out ${count === 1 ? "the photo" : `the ${count} photos`} of this job. ` +
    "The file carries them.",
  tooLong: (length: number) =>
    `The link has ${length} characters. Many apps cut that off: better send the file.`,
  tooLarge: "This job is too large for a link: no phone would open it. Send the file.",
  send: "Send the link",
  copy: "Copy the link",
  copied: "Copied",
  notCopied: "This browser did not let it be copied. Select the link below and copy it by hand.",
  file: "Save as a file",
  back: "Back",
  title: "Footwell job",
};
