/** What remains, what is proven, what was cleared and by which reading. */

import { view } from "../../app/job";
import { Bar } from "../../app/ui/Bar";
import { JobHead, Trouble } from "../../app/ui/JobHead";
import { Screen } from "../../app/ui/Screen";
import { Group, Proven } from "./Groups";
import { Likelihood } from "./Likelihood";
import { words } from "./words";

export function SuspectsScreen() {
  const suspects = view.value?.suspects;
  return (
    <Screen name={words.name} above={<JobHead />} bar={<Bar />}>
      <Trouble />
      {!suspects && <p>{words.later}</p>}
      {suspects && (
        <>
          <p class="left">{suspects.left_words}</p>
          {suspects.warning && <p class="trouble">{suspects.warning}</p>}
          {suspects.proven.length > 0 && <h2>{words.proven}</h2>}
          {suspects.proven.map((suspect) => (
            <Proven key={suspect.title} suspect={suspect} />
          ))}
          {suspects.groups.length > 0 && <h2>{words.possible}</h2>}
          {suspects.groups.map((group) => (
            <Group key={group.suspects.map(({ title }) => title).join()} group={group} />
          ))}
          <div class="block">
            <h3>{words.none}</h3>
            <Likelihood said="" share={suspects.none_of_these} />
          </div>
          <Closed title={words.mended} lines={suspects.mended} />
          <Closed
            title={words.cleared}
            lines={suspects.cleared.map(({ title, by }) => `${title}, ${words.by(by)}`)}
          />
        </>
      )}
    </Screen>
  );
}

function Closed({ title, lines }: { title: string; lines: string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h2>{title}</h2>
      <ul class="plain">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
