/** A plug that is otherwise than on the sheet: the numbers beside its ways, and how many there are. */

import { useState } from "preact/hooks";
import { practising } from "../../app/facts";
import { recordChange } from "../../app/job";
import type { ConnectorView, SheetChange } from "../../app/types";
import { CommitKey } from "../../app/ui/Key";
import { sheet } from "../circuit/sheet";
import { words } from "./words";

const keep = (change: SheetChange) =>
  recordChange({ kind: "sheet edited", body: { changes: [change] } });

export function Otherwise({ connector }: { connector: ConnectorView }) {
  const written = sheet.value.connectors.find(({ id }) => id === connector.id);
  if (practising.value || !written) return null;
  const ownLayout = Object.keys(written.spots ?? {}).length > 0;
  return (
    <details class="facts">
      <summary>{words.otherwise}</summary>
      {!ownLayout &&
        written.rows.map((row, n) => (
          <Row
            key={String(row[0])}
            connector={connector.id}
            row={n + 1}
            count={row.length}
            alone={written.rows.length === 1}
          />
        ))}
      <p>{words.numbersHow}</p>
      <div class="numbers">
        {connector.ways.map(({ way, number }) => (
          <WayNumber key={`${way} ${number}`} connector={connector.id} way={way} number={number} />
        ))}
      </div>
    </details>
  );
}

interface RowProps {
  connector: string;
  row: number;
  count: number;
  alone: boolean;
}

function Row({ connector, row, count, alone }: RowProps) {
  const set = (value: number) => keep({ element: connector, field: `row ${row}`, value });
  return (
    <fieldset class="toggles">
      <legend>{alone ? words.ways(count) : words.waysIn(row, count)}</legend>
      <div class="toggle-row">
        <CommitKey onPress={() => set(count + 1)}>{words.oneMore}</CommitKey>
        <CommitKey off={count < 2} onPress={() => set(count - 1)}>
          {words.oneLess}
        </CommitKey>
      </div>
    </fieldset>
  );
}

interface NumberProps {
  connector: string;
  way: string;
  number: string;
}

function WayNumber({ connector, way, number }: NumberProps) {
  const [typed, setTyped] = useState(number);
  const set = () =>
    keep({ element: `${connector}.${way}`, field: "number", value: typed.trim() || null });
  return (
    <div class="number">
      <label class="field">
        {words.numberOf(number)}
        <input
          autoComplete="off"
          autoCapitalize="characters"
          maxLength={8}
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      {typed.trim() !== number && (
        <CommitKey look="small" onPress={set}>
          {words.keepNumber}
        </CommitKey>
      )}
    </div>
  );
}
