import { setPriority } from "node:os";
import { parentPort } from "node:worker_threads";
import { Engines } from "../../allocation/index.js";
import { serveTasks } from "./serve-tasks.js";
import { planWorks } from "./tasks.js";

/** Of this thread and of those that it starts, where the system gives threads one of their own. */
const GIVES_WAY = 5;

if (parentPort !== null) {
  if (process.platform === "linux") setPriority(GIVES_WAY);
  serveTasks(parentPort, planWorks(new Engines()));
}
