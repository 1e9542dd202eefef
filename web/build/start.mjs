// `npm start`: install what is missing, build, serve.
import { build } from "./build.mjs";
import { serve } from "./serve.mjs";
import { command } from "./setup/say.mjs";

await command(async () => {
  await build();
  await serve();
});
