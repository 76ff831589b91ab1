import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { styleSheets } from "./template.js";

/** A file that the pages need beside them. */
export interface PageAsset {
  /** Path relative to the folder of assets, with forward slashes. */
  readonly path: string;
  readonly type: string;
  readonly content: Buffer;
}

const FONT = "@fontsource/ibm-plex-sans";
const WEIGHTS = ["400", "600"];

/** The one style sheet and the fonts it names; the server and `plan --out` give out the same. */
export function pageAssets(): PageAsset[] {
  const find = createRequire(import.meta.url).resolve;
  const faces = WEIGHTS.map((weight) => readFileSync(find(`${FONT}/${weight}.css`), "utf8"))
    .join("\n")
    .replace(/, url\([^)]*\.woff\) format\('woff'\)/g, "")
    .replaceAll("url(./files/", "url(fonts/");
  const fonts = [...faces.matchAll(/url\(fonts\/([^)]+)\)/g)].map((match) => match[1] ?? "");
  return [
    {
      path: "style.css",
      type: "text/css; charset=utf-8",
      content: Buffer.from(`${faces}\n${styleSheets()}`),
    },
    ...fonts.map((name) => ({
      path: `fonts/${name}`,
      type: "font/woff2",
      content: readFileSync(find(join(FONT, "files", name))),
    })),
  ];
}
