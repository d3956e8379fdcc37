/** `npm run bench`: how long the work takes that a user waits for. One file a subject, listed here. */
import { benchPowerCut } from "./powerCut.bench.ts";
import { benchRunningState } from "./runningState.bench.ts";

benchRunningState();
benchPowerCut();
