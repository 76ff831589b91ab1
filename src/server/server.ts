import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { Engines } from "../allocation/index.js";
import type { Planned } from "../planning/index.js";
import { makeApp } from "./app.js";
import { Folder } from "./folder.js";
import { Planner } from "./planner.js";
import { Questions } from "./questions.js";
import { addressOf } from "./screens.js";

export interface ServerOptions {
  /** The folder whose scenarios are served. */
  readonly folder: string;
  /** 0 for any free port. */
  readonly port: number;
  /** Closed with the server; its own by default. */
  readonly engines?: Engines;
  /** Seconds a plan may take where the form does not say. */
  readonly seconds?: number;
  /** Most plans waiting while another is made. */
  readonly mostWaiting?: number;
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
const DEFAULTS = { seconds: 10, mostWaiting: 8, mostHeld: 50 };

/** Starts serving a folder. Rejects with the system's error where the port cannot be had. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { engines = new Engines(), seconds = DEFAULTS.seconds, mostWaiting = DEFAULTS.mostWaiting } = options;
  const folder = new Folder(options.folder);
  const planner = new Planner({ engines, mostWaiting, mostHeld: DEFAULTS.mostHeld });
  const questions = new Questions(planner);
  const server = createServer(makeApp({ folder, planner, questions, seconds }));
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(options.port, HOST, resolve);
  });
  const url = `http://${HOST}:${(server.address() as AddressInfo).port}`;
  return {
    url: `${url}/`,
    addressOf: (name) => url + addressOf(name),
    plan: async (name) => {
      const file = await folder.read(name);
      if (file === null || file.scenario === null) return null;
      const job = await planner.plan({ key: file.hash, scenario: file.scenario, seconds });
      return job?.kind === "planned" ? job.planned : null;
    },
    close: async () => {
      const closed = new Promise((resolve) => server.close(resolve));
      server.closeAllConnections();
      questions.close();
      await closed;
      await engines.close();
    },
  };
}
