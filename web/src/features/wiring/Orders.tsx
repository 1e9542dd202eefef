/** Where the numbers cannot be seen: which orders of the wires fit the readings, and what would tell. */

import { useState } from "preact/hooks";
import { attempt, events, record } from "../../app/job";
import { ports } from "../../app/ports";
import { show } from "../../app/route";
import type { ConnectorView, OrdersView } from "../../app/types";
import { CommitKey, Key } from "../../app/ui/Key";
import { choose } from "../check/state";
import { connectorName, type Found, keyOf, SPARE } from "./state";
import { words } from "./words";

interface OrdersProps {
  connector: ConnectorView;
  found: Found;
}

export function Orders({ connector, found }: OrdersProps) {
  const [orders, setOrders] = useState<OrdersView | "working" | null>(null);
  const ask = async () => {
    setOrders("working");
    const request = {
      events: events.value,
      connector: connector.id,
      half: connector.half,
      found: onSheet(found),
    };
    setOrders((await attempt(() => ports().core.call("orders", request))) ?? null);
  };
  return (
    <section class="block">
      <p class="soft">{words.unseenWhy}</p>
      <Key onPress={ask}>{words.unseen}</Key>
      {orders === "working" && <p>{words.working}</p>}
      {orders && orders !== "working" && <Fitting orders={orders} />}
      {connector.doubtful && <CannotLook connector={connector} />}
    </section>
  );
}

/** A wire that is not on the sheet leaves its way without one that is. */
const onSheet = (found: Found): Found =>
  Object.fromEntries(
    Object.entries(found).map(([way, wire]) => [way, wire?.startsWith(SPARE) ? null : wire]),
  );

function Fitting({ orders }: { orders: OrdersView }) {
  const { check } = orders;
  return (
    <>
      <p class="do">{orders.sentence}</p>
      <ol class="steps">
        {orders.rows.map((row) => (
          <li key={row.words}>
            {row.words}
            <br />
            <b>{row.ways.join(" · ")}</b>
          </li>
        ))}
      </ol>
      {orders.more > 0 && <p>{words.more(orders.more)}</p>}
      {check && (
        <>
          <h3>{words.tells}</h3>
          <p>{check.do}</p>
          <p>{check.condition}</p>
        </>
      )}
      {orders.check_words && <p>{orders.check_words}</p>}
      {check && <Key onPress={() => choose(check)}>{words.doCheck}</Key>}
    </>
  );
}

function CannotLook({ connector }: { connector: ConnectorView }) {
  const goOn = async () => {
    const body = {
      check: `look into ${keyOf(connector)}`,
      reason: "other" as const,
      asked: words.look(connectorName(connector)),
    };
    if (await record([{ kind: "check skipped", body }])) show("work");
  };
  return <CommitKey onPress={goOn}>{words.cannotLook}</CommitKey>;
}
