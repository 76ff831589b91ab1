import { parentPort } from "node:worker_threads";
import { serveTasks } from "../work/serve-tasks.js";
import { DESK_WORKS } from "./tasks.js";

if (parentPort !== null) serveTasks(parentPort, DESK_WORKS);
