/** `npm run bench`: how long the work takes that a user waits for. One file a subject, listed here. */
import { benchDrag } from "./drag.bench.ts";
import { benchLarge } from "./large.bench.ts";
import { benchPowerCut } from "./powerCut.bench.ts";
import { benchRunningState } from "./runningState.bench.ts";
import { benchScenario } from "./scenario.bench.ts";

benchRunningState();
benchPowerCut();
benchScenario();
benchLarge();
await benchDrag();
