import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { Engines } from "../allocation/index.js";
import type { Planned } from "../planning/index.js";
import { AnswersHeld } from "./answers-held.js";
import { makeApp } from "./app.js";
import { Folder } from "./folder.js";
import { Planner } from "./planner.js";
import { Questions } from "./questions.js";
import { Queue } from "./queue.js";
import { addressOf } from "./screens.js";

export interface ServerOptions {
  /** The folder whose scenarios are served. */
  readonly folder: string;
  /** 0 for any free port. */
  readonly port: number;
  /** Makes the engines that plan; others are made in their place where work is stopped. Closed with the server. */
  readonly engines?: () => Engines;
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
  /** Plans a scenario of the folder; null where it cannot be read or the planning broke down. */
  plan(name: string): Promise<Planned | null>;
  /** Ends all connections and the engines' threads. */
  close(): Promise<void>;
}

/** Only this machine is served: there is no login, and a scenario is the kitchen's own business. */
const HOST = "127.0.0.1";
const DEFAULTS = { seconds: 10, mostWaiting: 8, patience: 10 };
const MOST_HELD = 50;

/** Starts serving a folder. Rejects with the system's error where the port cannot be had. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { engines = () => new Engines(), folder: path, port, ...stated } = options;
  const { seconds, mostWaiting, patience } = { ...DEFAULTS, ...stated };
  const folder = new Folder(path);
  const queue = new Queue({ engines, mostWaiting, patienceMs: patience * 1000 });
  const planner = new Planner(queue, MOST_HELD);
  const [questions, answers] = [new Questions(queue), new AnswersHeld(queue)];
  const server = createServer(makeApp({ folder, planner, questions, answers, seconds }));
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, HOST, resolve);
  });
  const url = `http://${HOST}:${(server.address() as AddressInfo).port}`;
  return {
    url: `${url}/`,
    addressOf: (name) => url + addressOf(name),
    plan: async (name) => {
      const file = await folder.read(name);
      if (file === null || file.scenario === null) return null;
      const asked = { key: file.hash, scenario: file.scenario, seconds, isWatched: false };
      const job = await planner.plan(asked);
      return job?.kind === "planned" ? job.planned : null;
    },
    close: async () => {
      const closed = new Promise((resolve) => server.close(resolve));
      server.closeAllConnections();
      await queue.close();
      await closed;
    },
  };
}
