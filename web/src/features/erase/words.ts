export const words = {
  name: "Erase",
  back: "Back",
  which: "Choose a job to erase from this phone.",
  none: "No jobs on this phone.",
  phone: "Erase this whole phone",
  inFile: "all of it is in a file you saved",
  unsaved: (count: number) =>
    count === 1 ? "1 entry is in no saved file" : `${count} entries are in no saved file`,
  askJob: (title: string) => `Erase “${title}”?`,
  askPhone: "Erase everything on this phone?",
  meansJob:
    "Its readings, story, photos, sheet and unfinished typing go from this phone. This cannot be undone.",
  meansPhone:
    "All jobs with their photos, unfinished typing and your instruments go from this phone. This cannot be undone. The app itself stays.",
  copies:
    "Files you saved and links you sent are not touched: they still hold the job, also on other phones.",
  lost: "In no saved file, gone for good:",
  safe: "All of it is in a file you saved.",
  save: "Save as a file first",
  yesJob: "Erase this job",
  yesPhone: "Erase this phone",
  no: "Keep it",
};
