/** The working screen, home of a job: whatever is to be done now. */

import { passed } from "../../app/facts";
import { events, stale, view } from "../../app/job";
import type { Caution, Check, JobView } from "../../app/types";
import { CautionScreen } from "../caution/CautionScreen";
import { CheckScreen } from "../check/CheckScreen";
import { chosen } from "../check/state";
import { EndsScreen } from "../ends/EndsScreen";
import { Finished } from "../finished/Finished";
import { PositionsScreen } from "../positions/PositionsScreen";
import { Repair } from "../repair/Repair";
import { verdict } from "../verdict/state";
import { VerdictScreen } from "../verdict/VerdictScreen";
import { WiringStepScreen } from "../wiring/WiringStepScreen";
import { Waiting } from "./Waiting";

export function Work() {
  const now = view.value;
  if (verdict.value) return <VerdictScreen kept={verdict.value} />;
  if (!now || isOutdated()) return <Waiting />;
  const check = chosen.value ?? (now.step.kind === "check" ? now.step.check : null);
  const caution = firstCaution(check, now);
  if (caution) return <CautionScreen key={caution.hazard} caution={caution} />;
  if (check) return <CheckScreen key={check.id} check={check} view={now} />;
  return <OtherStep view={now} />;
}

function OtherStep({ view: now }: { view: JobView }) {
  const { step } = now;
  if (step.kind === "wiring") return <WiringStepScreen step={step} view={now} />;
  if (step.kind === "ends")
    return <EndsScreen key={`${step.wire} ${step.put_back}`} step={step} view={now} />;
  if (step.kind === "positions") return <PositionsScreen step={step} view={now} />;
  if (step.kind === "repair")
    return <Repair key={step.element + step.mode} step={step} view={now} />;
  if (step.kind === "finished") return <Finished step={step} view={now} />;
  return <Waiting />;
}

/** The step shown would not be the step to do: something was stored that may change it. */
const isOutdated = () => stale.value && events.value.at(-1)?.kind !== "caution passed";

/** The first caution of the step that was not yet passed in this sitting. */
function firstCaution(check: Check | null, now: JobView): Caution | undefined {
  const cautions = check?.cautions ?? ("cautions" in now.step ? now.step.cautions : []);
  return cautions.find(({ hazard }) => !passed.value.has(hazard));
}
