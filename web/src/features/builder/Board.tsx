/** What can come next, in view without a scroll: what is done with the wire, then the parts met most. */

import { words } from "./words";

interface BoardProps {
  onChoose: (value: string) => unknown;
}

export function Board({ onChoose }: BoardProps) {
  const common = words.parts.filter(({ value }) => !words.seldom.includes(value));
  return (
    <Keys
      question={words.begin}
      options={[...words.acts, ...common, { value: "more", name: words.more }]}
      onChoose={onChoose}
    />
  );
}

/** Parts that are met seldom. */
export function Seldom({ onChoose }: BoardProps) {
  const rest = words.parts.filter(({ value }) => words.seldom.includes(value));
  return <Keys question={words.begin} options={rest} onChoose={onChoose} />;
}

interface KeysProps extends BoardProps {
  question: string;
  options: { value: string; name: string }[];
}

/** A name this long takes two places. */
const LONG = 15;

function Keys({ question, options, onChoose }: KeysProps) {
  return (
    <fieldset class="toggles">
      <legend>{question}</legend>
      <div class="key-board">
        {options.map(({ value, name }) => (
          <button
            key={value}
            type="button"
            class={name.length >= LONG ? "key key-long" : "key"}
            onClick={() => onChoose(value)}
          >
            {name}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
