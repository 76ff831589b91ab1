import { Session } from "node:inspector/promises";

/** Does the work and names every function of src/ that ran in it, in this thread, as `FILE NAME`. */
export async function functionsRun(work: () => Promise<void>): Promise<ReadonlySet<string>> {
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: false });
  await work();
  const { result } = await session.post("Profiler.takePreciseCoverage");
  session.disconnect();
  return new Set(
    result.flatMap(({ url, functions }) => {
      const file = /\/src\/(.+\.ts)$/.exec(url)?.[1];
      const ran = functions.filter(({ ranges }) => ranges.some(({ count }) => count > 0));
      return file === undefined ? [] : ran.map(({ functionName }) => `${file} ${functionName}`);
    }),
  );
}
