import { render } from "preact";
import { python } from "./worker/python";

function Page() {
  const state = python.state.value;
  return <p>{state.state === "loading" ? state.message : state.state}</p>;
}

render(<Page />, document.body);
