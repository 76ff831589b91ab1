import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

const SRC = fileURLToPath(new URL("../../src", import.meta.url));

/** Every TypeScript file under src/, with its path inside src/ and its text. */
export function sourceFiles(): { file: string; text: string }[] {
  return readdirSync(SRC, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return { file: relative(SRC, path).split(sep).join("/"), text: readFileSync(path, "utf8") };
    })
    .sort((a, b) => a.file.localeCompare(b.file));
}
