// shelf.ts - names and found words of the shelf.

/** A name that is still free: `Harbour Light 2`, then 3. A number that is there is counted on. */
export function freeName(name: string, taken: (name: string) => boolean): string {
  const found = /^(.*?)(?: (\d+))?$/.exec(name);
  const stem = found?.[1] || name;
  let count = Number(found?.[2] ?? 1);
  let next: string;
  do next = `${stem} ${(count += 1)}`;
  while (taken(next));
  return next;
}

export interface Piece {
  text: string;
  found: boolean;
}
/** The excerpt of a search in pieces: what stood between « and » was found. */
export function pieces(excerpt: string): Piece[] {
  return excerpt
    .split(/(«[^»]*»)/)
    .filter(Boolean)
    .map((part) =>
      part.startsWith("«") ? { text: part.replace(/[«»]/g, ""), found: true } : { text: part.replace(/\s+/g, " "), found: false },
    );
}

/** A file name for a new document of one thing: plain letters, as it is listed on the shelf. */
export const documentName = (thing: string): string => thing.trim().replace(/[/\\]/g, "-").slice(0, 80);

export const revisionWords = (revision: number): string => (revision === 1 ? "one revision" : `${revision} revisions`);
