/** The plain report, as it is printed. */

import { view } from "../../app/job";
import type { ReportSection } from "../../app/types";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Key } from "../../app/ui/Key";
import { Screen } from "../../app/ui/Screen";
import { words } from "./words";

export function ReportScreen() {
  const now = view.value;
  return (
    <Screen
      name={words.name}
      above={<JobHead />}
      bar={<Bar />}
      keys={<Key onPress={() => print()}>{words.print}</Key>}
    >
      <Trouble />
      {!now && <p>{words.later}</p>}
      {now && (
        <article class="report">
          <p class="report-head">
            {now.title} · {now.vehicle}
          </p>
          {now.report.map((section) => (
            <Section key={section.title} section={section} />
          ))}
        </article>
      )}
    </Screen>
  );
}

function Section({ section }: { section: ReportSection }) {
  const lines = section.lines.filter((line) => line !== "");
  return (
    <section class="report-part">
      <h2>{section.title}</h2>
      {lines.length === 0 && <p class="soft">{words.empty}</p>}
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </section>
  );
}
