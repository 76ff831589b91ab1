import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../../", import.meta.url));

/** A fenced block of a page: its language, the file it is said to be (the word after that), its text. */
export interface Block {
  readonly language: string;
  readonly file: string | null;
  readonly text: string;
  readonly line: number;
}

/** The fenced blocks of a page, in order. */
export function blocksOf(page: string): Block[] {
  return [...page.matchAll(/^```(\S*)(?: (\S+))?\n([\s\S]*?)^```$/gm)].map((match) => ({
    language: match[1] ?? "",
    file: match[2] ?? null,
    text: match[3] ?? "",
    line: page.slice(0, match.index).split("\n").length,
  }));
}

/** Every page of the documentation, by its place in the project. */
export function pages(): string[] {
  const folders = ["docs", "docs/cook", "docs/reference"];
  const inFolders = folders.flatMap((folder) =>
    readdirSync(join(ROOT, folder))
      .filter((name) => name.endsWith(".md"))
      .map((name) => `${folder}/${name}`),
  );
  return ["README.md", "DEVELOPERS.md", "examples/README.md", ...inFolders];
}

export function pageText(page: string): string {
  return readFileSync(join(ROOT, page), "utf8");
}

/** Every link of a page to something in the project: the page or file, and the heading, either empty for none. */
export function linksOf(page: string): { path: string; heading: string }[] {
  const prose = pageText(page).replace(/^```[\s\S]*?^```$/gm, "");
  return [...prose.matchAll(/\]\((?!https?:)([^)#]*)(?:#([^)]*))?\)/g)].map(
    ([, path = "", heading = ""]) => ({
      path: path === "" ? page : relative(ROOT, join(ROOT, dirname(page), path)),
      heading,
    }),
  );
}

/** The anchors of a page's headings, as GitHub makes them. */
export function anchorsOf(page: string): string[] {
  const prose = pageText(page).replace(/^```[\s\S]*?^```$/gm, "");
  return [...prose.matchAll(/^#+ (.+)$/gm)].map(([, heading = ""]) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, "")
      .replace(/\s/g, "-"),
  );
}
