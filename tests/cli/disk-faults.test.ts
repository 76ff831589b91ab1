import { execFile } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { run } from "../support/program.js";
import { scratchFolder } from "../support/scenarios.js";
import { serve } from "../support/served.js";

const SMALLEST = readFileSync(new URL("../../examples/smallest.yaml", import.meta.url), "utf8");
const PROGRAM = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const LONG = "a".repeat(260);

let scratch: ReturnType<typeof scratchFolder>;
const at = (...names: string[]) => join(scratch.path, ...names);
beforeEach(() => {
  scratch = scratchFolder({ "lunch.yaml": SMALLEST });
});
afterEach(() => scratch.remove());

describe("what the disk does not allow", () => {
  it.each<[string, () => string[], RegExp]>([
    ["pages in a folder of too long a name", () => ["plan", at("lunch.yaml"), "--out", at(LONG)], /too long/],
    [
      "pages below a file",
      () => ["plan", at("lunch.yaml"), "--out", at("lunch.yaml", "x")],
      /lunch\.yaml is a file/,
    ],
    ["a new scenario of too long a name", () => ["new", at(`${LONG}.yaml`)], /too long/],
    [
      "a new scenario in no folder",
      () => ["new", at("none", "x.yaml")],
      /there is no folder .*none\. Make the/,
    ],
    ["a new scenario where a folder is", () => ["new", scratch.path], /there is a folder of this name/],
    [
      "a plan where a folder is",
      () => ["plan", at("lunch.yaml"), "--keep"],
      /lunch\.plan\.json:1:1: there is a folder/,
    ],
    [
      "a plan to read where a folder is",
      () => ["weigh-in", at("lunch.yaml")],
      /lunch\.plan\.json:1:1: this is a folder/,
    ],
    ["waste of a folder", () => ["waste", at("lunch.plan.json")], /lunch\.plan\.json:1:1: this is a folder/],
  ])("is wrong input, by its path: %s", async (_, command, said) => {
    mkdirSync(at("lunch.plan.json"));
    const { code, stderr } = await run(...command());
    expect([code, stderr]).toEqual([2, expect.stringMatching(said)]);
    expect(stderr).not.toContain("Our fault");
    expect(readdirSync(scratch.path).sort()).toEqual(["lunch.plan.json", "lunch.yaml"]);
  });

  it.skipIf(!existsSync("/proc/self"))(
    "is wrong input where no folder can be made, and no wait for ever",
    async () => {
      const { code, stderr } = await run("yield", "leek", "--out", "/proc/none/pages");
      expect([code, stderr]).toEqual([2, expect.stringContaining("there is no folder /proc/none.")]);
    },
  );

  it.skipIf(!existsSync("/dev/full"))("is wrong input where what is printed finds no room", async () => {
    const full = `"${process.execPath}" "${PROGRAM}" check "${at("lunch.yaml")}" > /dev/full`;
    const said = await new Promise<{ code: unknown; stderr: string }>((resolve) => {
      execFile("sh", ["-c", full], (error, _stdout, stderr) => resolve({ code: error?.code, stderr }));
    });
    expect(said).toEqual({
      code: 2,
      stderr: expect.stringContaining("cannot be written (ENOSPC). Make room"),
    });
  });

  it("is said on a page of the server", async () => {
    const served = await serve({ "lunch.yaml": SMALLEST });
    await served.ask("lunch.yaml");
    await served.settled("lunch.yaml");
    mkdirSync(join(served.folder, "lunch.plan.json"));
    writeFileSync(join(served.folder, "lunch.plan.json", "x"), "");
    const origin = served.server.url.slice(0, -1);
    const kept = await fetch(`${origin}/scenario/lunch.yaml/keep`, { method: "POST", headers: { origin } });
    expect([kept.status, await kept.text()]).toEqual([
      409,
      expect.stringContaining("there is a folder of this name"),
    ]);
    expect(readdirSync(served.folder).sort()).toEqual(["lunch.plan.json", "lunch.yaml"]);
    await served.close();
  });
});
