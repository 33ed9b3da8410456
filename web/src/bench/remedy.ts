// remedy.ts - a remedy shown as the change of text that it is, before it is kept. Places are the engine's: lines and bytes.
import type * as wire from "../api/types";

const utf8 = { read: new TextEncoder(), write: new TextDecoder() };

/** The lines an edit touches, before and after. */
export function seen(text: string, edit: wire.Edit): { before: string; after: string } {
  const line = text.split("\n")[edit.line - 1] ?? "";
  const bytes = utf8.read.encode(line);
  const from = edit.column - 1;
  const part = (a: number, b?: number): string => utf8.write.decode(bytes.slice(a, b));
  return { before: line.trim(), after: `${part(0, from)}${edit.text}${part(from + edit.length)}`.trim() };
}

/** Whether a finding's edits may be laid on this document: those of a borrowed file belong to that file. */
export const isOurs = (finding: wire.Finding, file: string | null): boolean =>
  finding.where.file === null || file === null || finding.where.file === file;
