import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { AnswersHeld } from "./answers-held.js";
import { makeApp } from "./app.js";
import type { DeskTasks } from "./desk/tasks.js";
import { Folder } from "./folder.js";
import { addressOf } from "./frame.js";
import { Planner } from "./planner.js";
import { Queue } from "./queue.js";
import type { ScenarioTexts } from "./scenario-texts.js";
import type { MadePlan } from "./work/plan.js";
import { TaskThread, threadFile } from "./work/task-thread.js";
import type { PlanTasks } from "./work/tasks.js";

export interface ServerOptions {
  /** The folder whose scenarios are served. */
  readonly folder: string;
  /** 0 for any free port. */
  readonly port: number;
  /** The file that the thread of planning runs, asked for anew where work was stopped with its thread. */
  readonly planThread?: () => URL;
  /** Seconds a plan may take where the form does not say. */
  readonly seconds?: number;
  /** Most plans waiting while another is made. */
  readonly mostWaiting?: number;
  /** Seconds after which work that nobody looks at any more is stopped. */
  readonly patience?: number;
}

export interface RunningServer {
  /** Address of the first page, with its last slash. */
  readonly url: string;
  addressOf(name: string): string;
  /** Plans a scenario of the folder, as its file is now; null where it cannot be read or the planning broke down. */
  plan(name: string): Promise<{ readonly file: ScenarioTexts; readonly planned: MadePlan } | null>;
  /** Ends all connections and the threads. */
  close(): Promise<void>;
}

/** Only this machine is served: there is no login, and a scenario is the kitchen's own business. */
const HOST = "127.0.0.1";
const DEFAULTS = { seconds: 10, mostWaiting: 8, patience: 10 };
const MOST_HELD = 50;
const DESK_LIMIT_MS = 60_000;
const TOO_LARGE =
  "it takes more memory than there is for one plan. Plan fewer services, or fewer dishes, in one scenario";

/** Starts serving a folder. Rejects with the system's error where the port cannot be had. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { planThread = () => threadFile("plan-worker"), folder: path, port, ...stated } = options;
  const { seconds, mostWaiting, patience } = { ...DEFAULTS, ...stated };
  const desk = new TaskThread<DeskTasks>({
    file: () => threadFile("desk-worker"),
    outOfMemory: "it takes more memory than there is for one file",
    limitMs: DESK_LIMIT_MS,
  });
  const thread = new TaskThread<PlanTasks>({ file: planThread, outOfMemory: TOO_LARGE });
  const folder = new Folder(path, {
    readScenario: (texts) => desk.run("read", texts),
    readTestCard: (source) => desk.run("testCard", source),
  });
  const queue = new Queue({ thread, mostWaiting, patienceMs: patience * 1000 });
  const planner = new Planner(queue, MOST_HELD);
  const answers = new AnswersHeld();
  const server = createServer(makeApp({ folder, desk, planner, queue, answers, seconds }));
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, HOST, resolve);
  });
  desk.warm();
  thread.warm();
  const url = `http://${HOST}:${(server.address() as AddressInfo).port}`;
  return {
    url: `${url}/`,
    addressOf: (name) => url + addressOf(name),
    plan: async (name) => {
      const file = await folder.read(name);
      if (file === null || file.summary === null) return null;
      const job = await planner.plan({ file: file.texts, seconds, isWatched: false });
      return job?.kind === "planned" ? { file: file.texts, planned: job.planned } : null;
    },
    close: async () => {
      const closed = new Promise((resolve) => server.close(resolve));
      server.closeIdleConnections();
      await queue.close();
      await desk.close();
      server.closeAllConnections();
      await closed;
    },
  };
}
