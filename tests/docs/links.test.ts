import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { WHATS } from "../../src/weigh-in/row.js";
import { COLUMNS } from "../../src/weigh-in/write.js";
import { ALLOWED_ARROWS } from "../support/imports.js";
import { anchorsOf, linksOf, pages, pageText, ROOT } from "../support/markdown.js";

const MOST_LINES: Readonly<Record<string, number>> = { "README.md": 150, "DEVELOPERS.md": 120 };

describe("the documentation", () => {
  it.each(pages())("%s links only to what there is", (page) => {
    const broken = linksOf(page).filter(
      ({ path, heading }) =>
        !existsSync(join(ROOT, path)) || (heading !== "" && !anchorsOf(path).includes(heading)),
    );
    expect(broken).toEqual([]);
  });

  it.each(Object.entries(MOST_LINES))("%s has at most %i lines", (page, most) => {
    expect(pageText(page).split("\n").length - 1).toBeLessThanOrEqual(most);
  });

  it("leads from README.md to every page", () => {
    const reached = new Set(["README.md"]);
    for (const page of reached)
      for (const { path } of linksOf(page)) if (path.endsWith(".md")) reached.add(path);
    expect(pages().filter((page) => !reached.has(page))).toEqual([]);
  });

  it("names only files and folders that there are", () => {
    const files = ["src", "tests", "docs", "examples", "yield-tables", ".ci"].flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" }).map(
        (name) => `/${folder}/${name}`,
      ),
    );
    const all = [...files, ...readdirSync(ROOT).map((name) => `/${name}`)];
    const named = ["DEVELOPERS.md", "docs/search.md"].flatMap((page) =>
      [...pageText(page).matchAll(/`([\w./-]+(?:\.ts|\.js|\.md|\.svg|\/))`/g)].map(([, name = ""]) => name),
    );
    const known = (name: string) => all.some((file) => file.endsWith(`/${name.replace(/\/$/, "")}`));
    expect(named.length).toBeGreaterThan(50);
    expect(named.filter((name) => !known(name))).toEqual([]);
  });

  it("has the arrows of the house in DEVELOPERS.md", () => {
    const rows = pageText("DEVELOPERS.md").matchAll(/^\| `([\w-]+)\/` \| .* \| ([^|]+) \|$/gm);
    const arrows = [...rows].map(([, room = "", may = ""]) => [
      room,
      may === "nothing" ? [] : may.split(", "),
    ]);
    expect(Object.fromEntries(arrows)).toEqual(ALLOWED_ARROWS);
  });

  it("names every row and column of a weigh-in", () => {
    const named = pageText("docs/reference/weigh-in.md").split("\n");
    const rows = named.filter((line) => line.startsWith("| `")).map((line) => line.split("|")[1] ?? "");
    const names = rows.flatMap((cell) => [...cell.matchAll(/`([^`]+)`/g)].map(([, name]) => name));
    expect(names).toEqual(["what", ...WHATS, "planned", "actual", "reason", "by", "time"]);
    const columns = named.find((line) => line.startsWith("| `what`")) ?? "";
    const head = [...columns.matchAll(/`([^`]+)`/g)].map(([, name]) => name);
    expect([...head, ...names.slice(-5)]).toEqual(COLUMNS);
  });
});
