// Loaded before the page itself, so that Python starts while the page is still being drawn.
import { python } from "./worker/python";

python.start();
