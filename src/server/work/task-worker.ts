import { parentPort } from "node:worker_threads";
import { Engines } from "../../allocation/index.js";
import { serveTasks } from "./serve-tasks.js";

if (parentPort !== null) serveTasks(parentPort, new Engines());
