export const words = {
  name: "A job from a link",
  reading: "Reading the link…",
  shown:
    "Nothing is stored until you take it over. It opens as a new job; your own jobs stay as they are.",
  moreInside:
    "This link comes from a newer Footwell and holds something that would be left out here. " +
    "Update Footwell first, or ask for the job as a file: a file keeps everything.",
  readings: (count: number) => (count === 1 ? "1 reading" : `${count} readings`),
  photos: (count: number) =>
    `${count === 1 ? "The photo" : `The ${count} photos`} of this job did not come with the link. ` +
    "For photos ask for the job as a file.",
  take: "Take over as a new job",
  leave: "Leave it",
  gone: "It was already opened or left here. What was taken over is among your jobs; else open the link once more.",
  failed: "This link cannot be opened",
};
