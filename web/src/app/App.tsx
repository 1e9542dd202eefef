/** Which screen is drawn. */

import { useEffect, useLayoutEffect } from "preact/hooks";
import { AboutScreen } from "../features/about/AboutScreen";
import { BuilderScreen } from "../features/builder/BuilderScreen";
import { CircuitScreen } from "../features/circuit/CircuitScreen";
import { PlaceScreen } from "../features/circuit/PlaceScreen";
import { ComplaintScreen } from "../features/complaint/ComplaintScreen";
import { EraseScreen } from "../features/erase/EraseScreen";
import { FallScreen } from "../features/fall/FallScreen";
import { FilesScreen } from "../features/files/FilesScreen";
import { HistoryScreen } from "../features/history/HistoryScreen";
import { JobsScreen } from "../features/jobs/JobsScreen";
import { MenuScreen } from "../features/menu/MenuScreen";
import { NewJobScreen } from "../features/newjob/NewJobScreen";
import { OpenLinkScreen } from "../features/openlink/OpenLinkScreen";
import { OthersScreen } from "../features/others/OthersScreen";
import { PadScreen } from "../features/pad/PadScreen";
import { PhotoScreen } from "../features/photos/PhotoScreen";
import { AnytimeScreen } from "../features/positions/AnytimeScreen";
import { EndScreen } from "../features/practice/EndScreen";
import { RecordScreen } from "../features/record/RecordScreen";
import { ReportScreen } from "../features/report/ReportScreen";
import { SettingsScreen } from "../features/settings/SettingsScreen";
import { ShareScreen } from "../features/share/ShareScreen";
import { SkipScreen } from "../features/skip/SkipScreen";
import { StarterScreen } from "../features/starter/StarterScreen";
import { Work } from "../features/step/Work";
import { StoryScreen } from "../features/story/StoryScreen";
import { SuspectsScreen } from "../features/suspects/SuspectsScreen";
import { WhyScreen } from "../features/why/WhyScreen";
import { WiringScreen } from "../features/wiring/WiringScreen";
import { catchUp, openJob, refreshJob } from "./job";
import { ports } from "./ports";
import { type Route, route } from "./route";
import { useWakeLock } from "./wake";

export function App() {
  const now = route.value;
  switch (now.screen) {
    case "jobs":
      return <JobsScreen />;
    case "new":
      return <NewJobScreen />;
    case "starter":
      return <StarterScreen />;
    case "builder":
      return <BuilderScreen />;
    case "practice":
      return <NewJobScreen practice />;
    case "open link":
      return <OpenLinkScreen />;
    case "settings":
      return <SettingsScreen />;
    case "erase":
      return <EraseScreen />;
    case "about":
      return <AboutScreen />;
    case "job":
      return <JobScreens now={now} />;
  }
}

type JobRoute = Extract<Route, { screen: "job" }>;

function JobScreens({ now }: { now: JobRoute }) {
  useWakeLock();
  const opening = ports().store.state.value === "opening";
  // Before anything is drawn: what is being worked out is said from the first moment.
  useLayoutEffect(() => {
    if (!opening) void openJob(now.job);
  }, [opening, now.job]);
  const saved = ports().store.revision.value;
  useEffect(() => {
    if (saved > 0) void refreshJob(now.job);
  }, [saved, now.job]);
  const ready = ports().core.state.value.state === "ready";
  useEffect(() => {
    if (ready) void catchUp();
  }, [ready]);
  return <JobScreen now={now} />;
}

function JobScreen({ now }: { now: JobRoute }) {
  switch (now.show) {
    case "complaint":
      return <ComplaintScreen />;
    case "work":
      return <Work />;
    case "pad":
      return <PadScreen />;
    case "others":
      return <OthersScreen />;
    case "skip":
      return <SkipScreen />;
    case "story":
      return <StoryScreen />;
    case "circuit":
      return <CircuitScreen />;
    case "place":
      return <PlaceScreen about={now.about} />;
    case "wiring":
      return <WiringScreen about={now.about} />;
    case "photo":
      return <PhotoScreen key={now.about} about={now.about} />;
    case "positions":
      return <AnytimeScreen />;
    case "suspects":
      return <SuspectsScreen />;
    case "history":
      return <HistoryScreen />;
    case "report":
      return <ReportScreen />;
    case "share":
      return <ShareScreen />;
    case "record":
      return <RecordScreen />;
    case "fall":
      return <FallScreen />;
    case "why":
      return <WhyScreen />;
    case "hidden":
      return <EndScreen />;
    case "files":
      return <FilesScreen />;
    case "menu":
      return <MenuScreen />;
  }
}
