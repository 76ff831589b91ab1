import { getDocumentProxy } from "unpdf";

/** One run of text in a PDF; lengths in points, from the lower left corner of the sheet. */
interface PdfText {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

export interface PdfSheet {
  readonly width: number;
  readonly height: number;
  readonly runs: readonly PdfText[];
}

/** What the PDF reader says of one run; its own types do not resolve under Node's module rules. */
interface RawRun {
  readonly str?: string;
  readonly width: number;
  readonly height: number;
  /** Text matrix; the last two are where the run starts. */
  readonly transform: readonly number[];
}

/** The text of a PDF, sheet by sheet, in the order it is painted. */
export async function readPdf(bytes: Uint8Array): Promise<PdfSheet[]> {
  const document = await getDocumentProxy(new Uint8Array(bytes));
  const sheets: PdfSheet[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const [, , width = 0, height = 0]: readonly number[] = page.view;
    const content: { items: readonly RawRun[] } = await page.getTextContent();
    const runs = content.items.flatMap(({ str = "", width, height, transform }) => {
      const [, , , , left = 0, bottom = 0] = transform;
      return str.trim() === ""
        ? []
        : [{ text: str, left, right: left + width, bottom, top: bottom + height }];
    });
    sheets.push({ width, height, runs });
  }
  await document.destroy();
  return sheets;
}

/** The text of a sheet, run after run. */
export function sheetText(sheet: PdfSheet): string {
  return sheet.runs.map(({ text }) => text).join(" ");
}
