import { type RunningServer, type ServerOptions, startServer } from "../../src/server/index.js";
import { scratchFolder } from "./scenarios.js";

export interface Served {
  readonly server: RunningServer;
  /** The folder it serves. */
  readonly folder: string;
  get(
    path: string,
    headers?: Record<string, string>,
  ): Promise<{ status: number; type: string; text: string }>;
  /** Asks for a plan as the scenario's own form does. */
  ask(name: string, fields?: Record<string, string>): Promise<Response>;
  /** Waits until the scenario is not being planned any more, and gives its screen. */
  settled(name: string): Promise<string>;
  /** Sends a form to an address below /scenario/, and waits for the answer where it takes long. */
  sent(
    path: string,
    fields: Readonly<Record<string, string>>,
    from?: string,
  ): Promise<{ status: number; text: string }>;
  close(): Promise<void>;
}

/** A server over a scratch folder holding these files, on a port of its own. */
export async function serve(
  files: Readonly<Record<string, string>>,
  options: Partial<ServerOptions> = {},
): Promise<Served> {
  const scratch = scratchFolder(files);
  const server = await startServer({ folder: scratch.path, port: 0, ...options });
  const origin = server.url.slice(0, -1);
  const get: Served["get"] = async (path, headers = {}) => {
    const response = await fetch(origin + path, { headers });
    return {
      status: response.status,
      type: response.headers.get("content-type") ?? "",
      text: await response.text(),
    };
  };
  const sent: Served["sent"] = async (path, fields, from = origin) => {
    const asked = { method: "POST", headers: { origin: from }, body: new URLSearchParams(fields) };
    let response = await fetch(`${origin}/scenario/${path}`, asked);
    for (;;) {
      const text = await response.text();
      if (!text.includes("data-progress")) return { status: response.status, text };
      await new Promise((resolve) => setTimeout(resolve, 100));
      response = await fetch(response.url);
    }
  };
  return {
    server,
    sent,
    folder: scratch.path,
    get,
    ask: (name, fields = {}) =>
      fetch(`${origin}/scenario/${encodeURIComponent(name)}/plan`, {
        method: "POST",
        headers: { origin },
        body: new URLSearchParams(fields),
        redirect: "manual",
      }),
    settled: async (name) => {
      for (;;) {
        const { text } = await get(`/scenario/${encodeURIComponent(name)}/`);
        if (!text.includes("data-progress")) return text;
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
    },
    close: async () => {
      await server.close();
      scratch.remove();
    },
  };
}
