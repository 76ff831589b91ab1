import { mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { changeFile } from "../../src/records/index.js";
import { LockTaken, lockFile } from "../../src/records/lock.js";
import { scratchFolder } from "../support/scenarios.js";

let scratch: ReturnType<typeof scratchFolder>;
let file: string;
beforeEach(() => {
  scratch = scratchFolder();
  file = join(scratch.path, "lunch.weigh-in.csv");
});
afterEach(() => scratch.remove());

const HOUR_MS = 3_600_000;
function dated(path: string, ms: number): void {
  const date = new Date(Date.now() + ms);
  utimesSync(path, date, date);
}

describe("a lock", () => {
  it("says who holds it, and is taken away by whoever made it", async () => {
    const lock = await lockFile(file);
    expect(JSON.parse(readFileSync(`${file}.lock`, "utf8"))).toMatchObject({ pid: process.pid });
    const waited: unknown = await lockFile(file, 100).catch((error: unknown) => error);
    expect(waited).toBeInstanceOf(LockTaken);
    expect(waited).toMatchObject({ lock: `${file}.lock`, holder: { pid: process.pid } });
    await lock.release();
    expect(readdirSync(scratch.path)).toEqual([]);
  });

  it("is renewed while it is held", async () => {
    const lock = await lockFile(file);
    dated(`${file}.lock`, -8_000);
    await new Promise((resolve) => setTimeout(resolve, 3_000));
    const waited = await lockFile(file, 100).catch(() => "taken");
    expect([waited, await lock.isHeld()]).toEqual(["taken", true]);
    await lock.release();
  });

  it.each([
    ["an hour old", -HOUR_MS],
    ["of the next hour", HOUR_MS],
  ])("does not block as a plain file %s", async (_, ms) => {
    writeFileSync(`${file}.lock`, "");
    dated(`${file}.lock`, ms);
    await changeFile(file, () => "saved");
    expect(readdirSync(scratch.path)).toEqual(["lunch.weigh-in.csv"]);
  });

  it("does not block as a folder that was left long ago", async () => {
    mkdirSync(`${file}.lock`);
    dated(`${file}.lock`, -HOUR_MS);
    await changeFile(file, () => "saved");
    expect(readdirSync(scratch.path)).toEqual(["lunch.weigh-in.csv"]);
  });

  it("of another machine is not judged by that machine's clock", async () => {
    writeFileSync(`${file}.lock`, JSON.stringify({ pid: 1, host: "elsewhere", token: "x" }));
    dated(`${file}.lock`, -HOUR_MS);
    const waited: unknown = await lockFile(file, 300).catch((error: unknown) => error);
    expect(waited).toMatchObject({ holder: { host: "elsewhere" } });
    await changeFile(file, () => "saved after it was watched for ten seconds");
    expect(readdirSync(scratch.path)).toEqual(["lunch.weigh-in.csv"]);
  }, 30_000);

  it("that is stale is ended once, though many want it", async () => {
    writeFileSync(`${file}.lock`, "");
    dated(`${file}.lock`, -HOUR_MS);
    const lines = Array.from({ length: 12 }, (_, line) =>
      changeFile(file, (text) => `${text ?? ""}${line}\n`),
    );
    await Promise.all(lines);
    expect(readFileSync(file, "utf8").trimEnd().split("\n")).toHaveLength(12);
    expect(readdirSync(scratch.path)).toEqual(["lunch.weigh-in.csv"]);
  });
});
