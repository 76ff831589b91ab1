import { readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import type * as kitchenFiles from "../../src/kitchen-files/index.js";
import * as records from "../../src/records/index.js";
import { readScenario } from "../../src/server/desk/scenarios.js";
import { testCardLine } from "../../src/server/desk/test-cards.js";
import { Folder } from "../../src/server/folder.js";
import { exampleText } from "../support/examples.js";
import { marrowBake, scratchFolder } from "../support/scenarios.js";
import { type Served, serve } from "../support/served.js";

vi.mock("../../src/records/index.js", async (original) => {
  const real = await original<typeof records>();
  return { ...real, textAt: vi.fn(real.textAt) };
});
vi.mock("../../src/kitchen-files/index.js", async (original) => {
  const real = await original<typeof kitchenFiles>();
  return {
    ...real,
    loadScenarioText: (...given: Parameters<typeof real.loadScenarioText>) => {
      if (given[1].includes("stumble here")) throw new TypeError("the reader stumbled");
      return real.loadScenarioText(...given);
    },
  };
});
/** Reads as the desk does, here and now. */
const reader = {
  readScenario: vi.fn(readScenario),
  readTestCard: vi.fn(testCardLine),
};
const reads = vi.mocked(records.textAt);

let served: Served | undefined;
afterEach(async () => {
  await served?.close();
  served = undefined;
  reader.readScenario.mockClear();
  reads.mockClear();
});

/** Writes a file that looks as if it had been written a while ago. */
function settled(path: string, text: string, secondsAgo = 60): void {
  writeFileSync(path, text);
  const date = new Date(Date.now() - secondsAgo * 1000);
  utimesSync(path, date, date);
}

describe("a folder", () => {
  it("reads a file again only when it changed", async () => {
    const scratch = scratchFolder();
    const file = (name: string) => join(scratch.path, name);
    settled(file("a.yaml"), marrowBake({ name: "A" }));
    settled(file("b.yaml"), marrowBake({ name: "B" }));
    const folder = new Folder(scratch.path, reader);
    const all = async () => {
      for (const name of await folder.names()) await folder.read(name);
      const read = reads.mock.calls.splice(0).map(([path]) => path);
      return { read, joined: reader.readScenario.mock.calls.splice(0).map(([{ name }]) => name) };
    };
    const [a, b] = [file("a.yaml"), file("b.yaml")];
    expect(await all()).toEqual({ read: [a, b], joined: ["a.yaml", "b.yaml"] });
    expect(await all()).toEqual({ read: [], joined: [] });
    settled(b, marrowBake({ name: "C" }), 30);
    expect(await all()).toEqual({ read: [b], joined: ["b.yaml"] });
    expect((await folder.read("b.yaml"))?.summary?.name).toBe("C");
    settled(file("yield-tests.csv"), readFileSync("examples/after-service/yield-tests.csv", "utf8"));
    expect(await all()).toEqual({ read: [], joined: ["a.yaml", "b.yaml"] });
    expect(await all()).toEqual({ read: [], joined: [] });
    scratch.remove();
  });

  it("sees what is written twice in a moment, in as many letters", async () => {
    const scratch = scratchFolder({ "a.yaml": marrowBake({ name: "A" }) });
    const folder = new Folder(scratch.path, reader);
    for (const name of ["B", "C", "D", "E"]) {
      writeFileSync(join(scratch.path, "a.yaml"), marrowBake({ name }));
      expect((await folder.read("a.yaml"))?.summary?.name).toBe(name);
    }
    scratch.remove();
  });

  it("asks once for a file that several ask for at the same time", async () => {
    const scratch = scratchFolder({ "a.yaml": marrowBake({ name: "A" }) });
    const folder = new Folder(scratch.path, reader);
    await Promise.all([folder.read("a.yaml"), folder.read("a.yaml"), folder.read("a.yaml")]);
    expect(reader.readScenario.mock.calls.length).toBe(1);
    scratch.remove();
  });

  it("tells of a file that the program stumbles over, and reads the others", async () => {
    const written = vi.spyOn(process.stderr, "write").mockReturnValue(true);
    const scratch = scratchFolder({
      "good.yaml": marrowBake({ name: "Good one" }),
      "bad.yaml": `${marrowBake({ name: "Bad one" })}# stumble here\n`,
    });
    const folder = new Folder(scratch.path, reader);
    expect((await folder.read("good.yaml"))?.summary?.name).toBe("Good one");
    const what = "the program stumbles over this file, which is our fault";
    expect((await folder.read("bad.yaml"))?.problems).toMatchObject([{ file: "bad.yaml", what }]);
    expect(written.mock.calls.map(([text]) => text)).toEqual(["bad.yaml: the reader stumbled\n"]);
    written.mockRestore();
    scratch.remove();
  });

  it("reads a file again that was not read because its reader gave way", async () => {
    const scratch = scratchFolder();
    const path = join(scratch.path, "a.yaml");
    settled(path, marrowBake({ name: "A" }));
    settled(join(scratch.path, "card.yaml"), exampleText("pork-shoulder"));
    const folder = new Folder(scratch.path, reader);
    reader.readScenario.mockRejectedValueOnce(new Error("its thread ended"));
    reader.readTestCard.mockRejectedValueOnce(new Error("its thread ended"));
    const what = "this file was not read: its thread ended";
    expect(await folder.read("a.yaml")).toMatchObject({ summary: null, problems: [{ what }] });
    expect(await folder.testCards()).toMatchObject([{ name: "card.yaml", state: "Not read" }]);
    expect((await folder.read("a.yaml"))?.summary?.name).toBe("A");
    expect((await folder.testCards())[0]?.name).toBe("Pork shoulder");
    scratch.remove();
  });
});

describe("every answer", () => {
  it("but those that pages need beside them is kept in no cache", async () => {
    served = await serve({ "a.yaml": marrowBake() });
    for (const path of ["/", "/scenario/a.yaml/", "/scenario/a.yaml/plan.json", "/nowhere", "/yields/"]) {
      const { headers } = await fetch(served.server.url.slice(0, -1) + path);
      expect([path, headers.get("cache-control")]).toEqual([path, "no-store"]);
    }
    const style = await fetch(`${served.server.url}assets/style.css`);
    expect([style.status, style.headers.get("cache-control")]).toEqual([200, null]);
    expect(style.headers.get("etag")).not.toBeNull();
  });

  it("to another method says which the address takes", async () => {
    served = await serve({ "a.yaml": marrowBake() });
    const origin = served.server.url.slice(0, -1);
    for (const [method, path, allow] of [
      ["GET", "/scenario/a.yaml/plan", "POST"],
      ["POST", "/scenario/a.yaml/", "GET, HEAD"],
      ["PUT", "/scenario/a.yaml/weigh-in", "GET, HEAD, POST"],
      ["DELETE", "/", "GET, HEAD"],
      ["POST", "/assets/style.css", "GET, HEAD"],
      ["DELETE", "/scenario/a.yaml/answer-1", "GET, HEAD"],
      ["PATCH", "/yields/leek/test", "GET, HEAD, POST"],
    ] as const) {
      const response = await fetch(origin + path, { method, headers: { origin } });
      const got = [method, path, response.status, response.headers.get("allow")];
      expect(got).toEqual([method, path, 405, allow]);
      expect(await response.text()).toContain("Not in this way");
    }
    const nowhere = await fetch(`${origin}/nowhere`, { method: "POST", headers: { origin } });
    expect([nowhere.status, nowhere.headers.get("allow")]).toEqual([404, null]);
  });
});
