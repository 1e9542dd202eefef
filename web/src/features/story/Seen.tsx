/** What was seen or smelled, and where. */

import { useState } from "preact/hooks";
import type { Sight, StoryItem } from "../../app/types";
import { Key } from "../../app/ui/Key";
import { Toggles } from "../../app/ui/Toggles";
import { words } from "./words";

interface SeenProps {
  items: StoryItem[];
  seen: Sight[];
  onSee: (seen: Sight[]) => void;
}

export function Seen({ items, seen, onSee }: SeenProps) {
  const [what, setWhat] = useState<Sight["what"] | null>(null);
  const add = (where: string) => {
    if (what) onSee([...seen, { where, what }]);
    setWhat(null);
  };
  return (
    <>
      <Toggles question={words.seen} options={words.sights} chosen={what} onChoose={setWhat} />
      {what && (
        <Toggles
          question={words.where}
          options={items.map(({ id, name }) => ({ value: id, name }))}
          chosen={null}
          onChoose={add}
        />
      )}
      {seen.map((sight, index) => (
        <Key
          key={`${sight.where}${sight.what}`}
          label={`Take away: ${inWords(sight, items)}`}
          onPress={() => onSee(seen.filter((_, other) => other !== index))}
        >
          {inWords(sight, items)} ✕
        </Key>
      ))}
    </>
  );
}

function inWords({ where, what }: Sight, items: StoryItem[]): string {
  const item = items.find(({ id }) => id === where)?.name ?? where;
  const sight = words.sights.find(({ value }) => value === what)?.name ?? what;
  return `${item}: ${sight}`;
}
