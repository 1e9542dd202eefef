/** One place of the circuit, chosen by its name. */

import { view } from "../../app/job";

interface PlaceChoiceProps {
  question: string;
  /** What stands there until a place is chosen. */
  none: string;
  place: string;
  onChoose: (place: string) => void;
  /** A place that is no answer. */
  but?: string;
  /** The places to choose from, else all that can be measured. */
  among?: { id: string; name: string }[];
}

export function PlaceChoice({ question, none, place, onChoose, but, among }: PlaceChoiceProps) {
  const places = among ?? view.value?.diagram.places ?? [];
  return (
    <label class="field">
      {question}
      <select value={place} onChange={(event) => onChoose(event.currentTarget.value)}>
        <option value="">{none}</option>
        {places
          .filter(({ id }) => id !== but)
          .map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
      </select>
    </label>
  );
}
