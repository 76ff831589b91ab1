import { isAbsolute, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "rolldown";

const DIST = fileURLToPath(new URL("dist/", import.meta.url));

/**
 * The program as one file, one for each command that is loaded when it is asked for, and one for each thread of the
 * server: Node takes a third of a second to find and load hundreds of small ones. Packages are loaded as they are.
 */
await build({
  input: {
    cli: "dist/cli.js",
    "desk-worker": "dist/server/desk/desk-worker.js",
    "plan-worker": "dist/server/work/plan-worker.js",
  },
  platform: "node",
  // Only what starts the program and its threads does anything as it is loaded: what a start does not use is left out.
  treeshake: { moduleSideEffects: false },
  external: (id) => !id.startsWith(".") && !isAbsolute(id),
  plugins: [
    {
      // A module finds its templates, tables and threads by where it was.
      name: "own place",
      transform: (code, id) =>
        code.replaceAll(
          "import.meta.url",
          `new URL(${JSON.stringify(`./${relative(DIST, id).split(sep).join("/")}`)}, import.meta.url).href`,
        ),
    },
  ],
  output: { dir: "dist", entryFileNames: "[name].js", chunkFileNames: "cli-[name].js" },
});
