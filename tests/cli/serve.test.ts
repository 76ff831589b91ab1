import { createServer } from "node:net";
import { afterAll, describe, expect, it } from "vitest";
import { finished, printed, run, start } from "../support/program.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";

const folder = scratchFolder({ "demo.yaml": marrowBake({ name: "Demo bake" }) });
afterAll(() => folder.remove());

describe("serve", () => {
  it("plans the demo, prints it and the address of its pages, serves them, and stops when told", async () => {
    const child = start("serve", folder.path, "--port", "0", "--demo");
    const ended = finished(child);
    const text = await printed(child, /Stop with Ctrl-C/);
    expect(text).toMatch(/^Demo bake\nBuy {5}2 heads of marrow/);
    const address = /^Its pages: (http:\/\/127\.0\.0\.1:\d+\/scenario\/demo\.yaml\/)$/m.exec(text)?.[1] ?? "";
    const screen = await (await fetch(address)).text();
    expect(screen).toContain("Proved least waste");
    expect((await fetch(`${address}pages/glance.html`)).status).toBe(200);
    child.kill("SIGINT");
    expect(await ended).toMatchObject({ code: 0, stderr: "" });
    await expect(fetch(address)).rejects.toThrow();
  });

  it("says what to do where the folder is none or the port is taken", async () => {
    const none = await run("serve", "nowhere");
    expect(none).toMatchObject({ code: 2, stdout: "" });
    expect(none.stderr).toContain("nowhere is no folder");
    const holder = createServer();
    const port = await new Promise<number>((resolve) => {
      holder.listen(0, "127.0.0.1", () => {
        const address = holder.address();
        resolve(typeof address === "object" && address !== null ? address.port : 0);
      });
    });
    const taken = await run("serve", folder.path, "--port", String(port));
    holder.close();
    expect(taken).toMatchObject({ code: 2, stdout: "" });
    expect(taken.stderr).toBe(`Port ${port} is taken. Choose another with --port.\n`);
    expect((await run("serve", folder.path, "--port", "70000")).code).toBe(2);
  });
});
