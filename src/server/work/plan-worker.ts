import { getPriority, setPriority } from "node:os";
import { parentPort } from "node:worker_threads";
import { Engines } from "../../allocation/index.js";
import { serveTasks } from "./serve-tasks.js";
import { planWorks } from "./tasks.js";

/** Added to the nice value of this thread; threads that it starts inherit it. */
const GIVES_WAY = 5;
const MOST_NICE = 19;

if (parentPort !== null) {
  giveWay();
  serveTasks(parentPort, planWorks(new Engines()));
}

/** Only on Linux has each thread a priority of its own. Where it may not be changed it stays. */
function giveWay(): void {
  if (process.platform !== "linux") return;
  try {
    setPriority(Math.min(MOST_NICE, getPriority() + GIVES_WAY));
  } catch {
    // A plan at the priority of its server is a plan all the same.
  }
}
