import { happenedAt, type Lesson, learnFrom } from "../kitchen-files/index.js";
import { renderHappened } from "../pages/index.js";
import { problemLines } from "../reading/index.js";
import { answering, writePages } from "./answering.js";
import { EXIT, type ExitCode } from "./exit-code.js";
import type { Terminal } from "./terminal.js";
import { printHappened } from "./weigh-in-text.js";

export interface WeighInCommandOptions {
  readonly json?: boolean;
  readonly learn?: boolean;
  readonly out?: string;
}

/** `weigh-in FILE`: what happened against the plan as kept; its pages and its yield tests where asked. */
export async function weighInCommand(
  file: string,
  { json, learn, out }: WeighInCommandOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  return answering({ file, out }, terminal, async (scenario) => {
    const { planned, happened, problems: found } = await happenedAt(file, scenario);
    for (const line of problemLines(found)) terminal.complain(line);
    if (planned === null || happened === null) return EXIT.wrongInput;
    const say = json === true ? terminal.complain : terminal.print;
    if (json === true) terminal.print(JSON.stringify(happened.plan, null, 2));
    else printHappened(planned, happened, terminal);
    if (out !== undefined) writePages(out, renderHappened(planned, scenario, happened), say);
    if (learn !== true) return EXIT.plan;
    const lesson = await learnFrom(file, happened);
    for (const line of problemLines(lesson.problems)) terminal.complain(line);
    if (lesson.problems.length > 0) return EXIT.wrongInput;
    for (const line of lessonLines(lesson)) say(line);
    return EXIT.plan;
  });
}

function lessonLines({ file, tests, added, replaced, removed, without }: Lesson): string[] {
  const count = (number: number) => (number === 1 ? "1 yield test" : `${number} yield tests`);
  const news = [
    ...(added > 0 ? [`${count(added)} added`] : []),
    ...(replaced > 0 ? [`${count(replaced)} corrected`] : []),
    ...(removed > 0 ? [`${count(removed)} taken out`] : []),
  ];
  const known = tests === 0 ? "no cut makes a yield test" : `${count(tests)}, learnt before`;
  return [
    `Learnt: ${news.length > 0 ? `${news.join(", ")} in ${file}` : known}`,
    ...without.map(({ item, breakdown, why }) => `  none of ${item}, ${breakdown}: ${why}`),
  ];
}
