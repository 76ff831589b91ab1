/**
 * Advance widths of IBM Plex Sans in thousandths of an em, for U+0020 to U+007E and U+00A0 to U+00FF, read from
 * the `hmtx` table of the font file that the pages are served with.
 */
const REGULAR = widths(
  `236 284 419 713 598 927 694 242 335 335 450 600 272 399 272 383 600 600 600 600 600 600 600 600 600 600 292 292
   600 600 600 477 891 641 653 621 671 583 559 695 707 400 510 634 501 812 707 708 606 708 640 581 572 678 609 891
   613 593 580 317 383 317 600 565 600 534 580 503 580 549 324 528 568 250 250 527 272 873 568 560 580 580 367 487
   351 568 492 768 507 499 464 343 314 343 600`,
  `236 284 514 595 612 605 314 586 600 776 399 513 600 0 476 600 468 600 346 346 600 573 652 326 600 359 398 513
   847 872 824 467 641 641 641 641 641 641 907 621 583 583 583 583 400 400 400 400 674 707 708 708 708 708 708 600
   708 678 678 678 678 593 606 640 534 534 534 534 534 534 864 503 549 549 549 549 250 250 250 250 555 568 560 560
   560 560 560 600 568 568 568 568 568 499 580 499`,
);
const SEMIBOLD = widths(
  `236 309 471 656 600 960 713 260 337 337 556 600 299 402 299 437 600 600 600 600 600 600 600 600 600 600 319 319
   600 600 600 493 899 672 663 642 689 600 577 712 719 423 545 678 521 817 719 712 641 712 664 611 580 689 638 949
   655 632 599 329 437 329 600 559 600 559 600 513 600 558 350 545 588 275 275 562 294 888 588 563 600 600 393 499
   374 588 524 819 544 524 502 363 376 363 600`,
  `236 309 541 586 623 637 376 574 600 787 434 545 600 0 468 600 469 600 347 345 600 593 670 349 600 348 423 545
   840 863 827 486 672 672 672 672 672 672 950 642 600 600 600 600 423 423 423 423 694 719 712 712 712 712 712 600
   712 689 689 689 689 632 641 677 559 559 559 559 559 559 864 513 558 558 558 558 275 275 275 275 589 588 563 563
   563 563 563 600 571 588 588 588 588 524 600 524`,
);
/** For letters outside the table: as wide as the widest of it, so that a label is never taken for too narrow. */
const UNKNOWN = 960;

export type Weightiness = "regular" | "semibold";

/** Width of one line of text, in the unit of `size`, the font's em. */
export function textWidth(text: string, size: number, weightiness: Weightiness = "regular"): number {
  let sum = 0;
  for (const letter of text) sum += letterWidth(letter, weightiness);
  return (sum * size) / 1000;
}

/** In thousandths of an em. */
function letterWidth(letter: string, weightiness: Weightiness): number {
  const table = weightiness === "regular" ? REGULAR : SEMIBOLD;
  return table.get(letter.codePointAt(0) ?? 0) ?? UNKNOWN;
}

/**
 * Breaks text into lines no wider than `most` at its spaces; a no-break space holds. A single word that is too
 * wide is broken inside, with a hyphen.
 */
export function wrap(
  text: string,
  most: number,
  size: number,
  weightiness: Weightiness = "regular",
): string[] {
  const fits = (line: string) => textWidth(line, size, weightiness) <= most;
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ").filter((each) => each !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== "") lines.push(line);
    const pieces = fits(word) ? [word] : broken(word, (most * 1000) / size, weightiness);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? "";
  }
  if (line !== "" || lines.length === 0) lines.push(line);
  return lines;
}

/** A word in pieces of at most so many thousandths of an em, or a letter, each but the last with a hyphen. */
function broken(word: string, most: number, weightiness: Weightiness): string[] {
  const hyphen = letterWidth("-", weightiness);
  const letters = [...word].map((letter) => ({ letter, width: letterWidth(letter, weightiness) }));
  let rest = letters.reduce((sum, { width }) => sum + width, 0);
  let room = most;
  let isLast = rest <= room;
  const pieces: string[] = [];
  let piece = "";
  for (const { letter, width } of letters) {
    if (piece !== "" && !isLast && width + hyphen > room) {
      pieces.push(`${piece}-`);
      piece = "";
      room = most;
      isLast = rest <= room;
    }
    piece += letter;
    room -= width;
    rest -= width;
  }
  return [...pieces, piece];
}

function widths(ascii: string, latin: string): ReadonlyMap<number, number> {
  const read = (text: string, first: number): [number, number][] =>
    text
      .trim()
      .split(/\s+/)
      .map((width, index) => [first + index, Number(width)]);
  return new Map([...read(ascii, 0x20), ...read(latin, 0xa0)]);
}
