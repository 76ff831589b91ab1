import { execFile } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  changeFile,
  changeFiles,
  finishSaving,
  NotSaved,
  planFile,
  weighInFile,
  yieldTestsFile,
} from "../../src/records/index.js";
import { scratchFolder } from "../support/scenarios.js";

let scratch: ReturnType<typeof scratchFolder>;
let file: string;
beforeEach(() => {
  scratch = scratchFolder();
  file = join(scratch.path, "yield-tests.csv");
});
afterEach(() => scratch.remove());

/** Runs a fixture in a process of its own, and gives the signal that ended it. */
function runFixture(name: string, ...args: readonly string[]): Promise<string | null> {
  const path = fileURLToPath(new URL(`../support/fixtures/${name}`, import.meta.url));
  return new Promise((resolve, reject) => {
    execFile(process.execPath, [path, ...args], (error, _stdout, stderr) => {
      if (error === null || typeof error.signal === "string") resolve(error?.signal ?? null);
      else reject(new Error(stderr));
    });
  });
}

const problemOf = async (saved: Promise<void>) =>
  saved.then(
    () => null,
    (error: unknown) => {
      if (error instanceof NotSaved) return error.problem;
      throw error;
    },
  );

describe("a file saved", () => {
  it("is there or not, never half, to whoever reads it meanwhile", async () => {
    const texts = ["a".repeat(400_000), "b".repeat(300_000)] as const;
    await changeFile(file, () => texts[0]);
    let saving = true;
    const saves = (async () => {
      for (let turn = 1; turn <= 30; turn++) await changeFile(file, () => texts[turn % 2 === 0 ? 0 : 1]);
      saving = false;
    })();
    let reads = 0;
    while (saving) {
      expect(texts.includes(readFileSync(file, "utf8"))).toBe(true);
      reads++;
      await new Promise(setImmediate);
    }
    await saves;
    expect(reads).toBeGreaterThan(30);
    expect(readdirSync(scratch.path)).toEqual(["yield-tests.csv"]);
  });

  it.each(["write", "fsync", "rename"])(
    "is as it was after a crash in its %s, and nothing is left of it",
    async (call) => {
      writeFileSync(file, "as it was\n");
      expect(await runFixture("die-while-saving.mjs", call, "1", file, "half")).toBe("SIGKILL");
      expect(readFileSync(file, "utf8")).toBe("as it was\n");
      expect(readdirSync(scratch.path).length).toBeGreaterThan(2);
      const began = performance.now();
      await changeFile(file, (text) => `${text}and more\n`);
      expect(performance.now() - began).toBeLessThan(5_000);
      expect(readFileSync(file, "utf8")).toBe("as it was\nand more\n");
      expect(readdirSync(scratch.path)).toEqual(["yield-tests.csv"]);
    },
  );

  it("is as it was where the disk takes the half of it", async () => {
    writeFileSync(file, "as it was\n");
    await expect(runFixture("save-on-full-disk.mjs", file, "so much longer\n")).rejects.toThrow(
      "the disk is full. Make room, then save again",
    );
    expect(readFileSync(file, "utf8")).toBe("as it was\n");
    expect(readdirSync(scratch.path)).toEqual(["yield-tests.csv"]);
  });

  it("is as it was where the disk has no room for its lock, which does not stay behind", async () => {
    writeFileSync(file, "as it was\n");
    await expect(runFixture("lock-on-full-disk.mjs", file, "more\n")).rejects.toThrow(
      "the disk is full. Make room, then save again",
    );
    expect(readdirSync(scratch.path)).toEqual(["yield-tests.csv"]);
    await changeFile(file, (text) => `${text}and more\n`);
    expect(readFileSync(file, "utf8")).toBe("as it was\nand more\n");
  });

  it("holds what two programs and this one add at once, nothing of it lost", async () => {
    const here = Array.from({ length: 15 }, (_, line) =>
      changeFile(file, (text) => `${text ?? ""}here ${line}\n`),
    );
    await Promise.all([
      ...here,
      runFixture("append-lines.mjs", file, "one", "15"),
      runFixture("append-lines.mjs", file, "two", "15"),
    ]);
    const lines = readFileSync(file, "utf8").trimEnd().split("\n");
    const wanted = ["here", "one", "two"].flatMap((name) =>
      Array.from({ length: 15 }, (_, line) => `${name} ${line}`),
    );
    expect(lines.sort()).toEqual(wanted.sort());
    expect(readdirSync(scratch.path)).toEqual(["yield-tests.csv"]);
  });

  it("is the one that a link points to", async () => {
    const link = join(scratch.path, "link.csv");
    writeFileSync(file, "1\n");
    symlinkSync(file, link);
    await Promise.all([changeFile(link, (text) => `${text}2\n`), changeFile(file, (text) => `${text}2\n`)]);
    expect(readFileSync(file, "utf8")).toBe("1\n2\n2\n");
  });

  it("is left alone, and unlocked, where the change is refused", async () => {
    writeFileSync(file, "as it was\n");
    const refused = changeFile(file, () => {
      throw new RangeError("no");
    });
    await expect(refused).rejects.toThrow(RangeError);
    expect(readFileSync(file, "utf8")).toBe("as it was\n");
    expect(readdirSync(scratch.path)).toEqual(["yield-tests.csv"]);
  });
});

describe("files saved together", () => {
  const other = () => join(scratch.path, "lunch.plan.json");
  const both = () => [readFileSync(file, "utf8"), readFileSync(other(), "utf8")];

  it.each([
    ...(["write", "fsync", "rename"] as const).flatMap((call) =>
      [1, 2, 3].map((which) => [call, which, "old"] as const),
    ),
    ["renameSync", 1, "new"] as const,
    ["renameSync", 2, "new"] as const,
    ["unlinkSync", 1, "new"] as const,
  ])("are both old or both new after a crash in %s %i", async (call, which, wanted) => {
    writeFileSync(file, "old");
    writeFileSync(other(), "old");
    const args = [file, "new", other(), "new"];
    expect(await runFixture("die-while-saving.mjs", call, String(which), ...args)).toBe("SIGKILL");
    await finishSaving(scratch.path);
    expect(both()).toEqual([wanted, wanted]);
    await changeFiles([file, other()], (texts) => texts.map((text) => `${text}er`));
    expect(both()).toEqual([`${wanted}er`, `${wanted}er`]);
    expect(readdirSync(scratch.path).sort()).toEqual(["lunch.plan.json", "yield-tests.csv"]);
  });

  it("are finished before the second of them alone is changed", async () => {
    writeFileSync(file, "old");
    const args = [other(), "new", file, "new"];
    expect(await runFixture("die-while-saving.mjs", "renameSync", "1", ...args)).toBe("SIGKILL");
    await changeFile(file, (text) => `${text}, and a figure`);
    await finishSaving(scratch.path);
    expect(both()).toEqual(["new, and a figure", "new"]);
  });

  it("are all as they were where one cannot be written", async () => {
    writeFileSync(file, "old");
    mkdirSync(other());
    const saved = changeFiles([file, other()], () => ["new", "new"]);
    await expect(saved).rejects.toThrow("there is a folder of this name");
    expect(readFileSync(file, "utf8")).toBe("old");
    expect(readdirSync(scratch.path).sort()).toEqual(["lunch.plan.json", "yield-tests.csv"]);
  });

  it("leave alone a note that this program did not write", async () => {
    writeFileSync(file, "old");
    writeFileSync(
      join(scratch.path, "x.commit"),
      JSON.stringify([{ from: "yield-tests.csv", to: "../out" }]),
    );
    await finishSaving(scratch.path);
    expect(readdirSync(scratch.path).sort()).toEqual(["x.commit", "yield-tests.csv"]);
  });
});

describe("a file that cannot be saved", () => {
  it("is a problem with a remedy where its folder is missing", async () => {
    const lost = join(scratch.path, "no", "plan.json");
    const problem = {
      file: lost,
      line: 1,
      column: 1,
      what: `there is no folder ${join(scratch.path, "no")}`,
      remedy: "Make the folder first, or name one that is there",
      code: "records/no-folder",
    };
    expect(await problemOf(changeFile(lost, () => ""))).toEqual(problem);
  });

  it("is a problem where its name is too long", async () => {
    const long = join(scratch.path, `${"a".repeat(300)}.csv`);
    const wording = {
      what: "the name is too long for this disk",
      remedy: expect.stringContaining("shorter"),
    };
    expect(await problemOf(changeFile(long, () => ""))).toMatchObject({ file: long, ...wording });
  });

  it("is a problem where a folder has its name", async () => {
    mkdirSync(file);
    const wording = { what: "there is a folder of this name", remedy: "Move or rename that folder" };
    expect(await problemOf(changeFile(file, () => ""))).toMatchObject(wording);
  });
});

describe("the kitchen's files", () => {
  it("stand beside the scenario, called by its name", () => {
    expect(yieldTestsFile("kitchen")).toBe("kitchen/yield-tests.csv");
    expect(yieldTestsFile("")).toBe("yield-tests.csv");
    expect(planFile("kitchen/friday.yaml")).toBe("kitchen/friday.plan.json");
    expect(weighInFile("kitchen/friday.YML")).toBe("kitchen/friday.weigh-in.csv");
  });
});
