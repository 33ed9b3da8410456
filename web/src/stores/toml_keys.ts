// toml_keys.ts - one key of one thing within a larder document's text: read as it stands, or written anew where it stands. All other bytes stay.
// Only plain keys that stand on a line of their own directly under `[[thing]]`; whether the text is sound, the engine says.

interface Block {
  /** First line behind `[[thing]]`, and the line behind its last plain key's room. */
  begin: number;
  end: number;
}
const header = /^\s*\[/;
const quoted = (word: string): string => JSON.stringify(word);

function blockOf(lines: string[], thing: string): Block | null {
  for (let at = 0; at < lines.length; at += 1) {
    if (!/^\s*\[\[\s*thing\s*\]\]/.test(lines[at] ?? "")) continue;
    let end = at + 1;
    while (end < lines.length && !header.test(lines[end] ?? "")) end += 1;
    const named = lines.slice(at + 1, end).some((line) => /^\s*name\s*=/.test(line) && valueOf(line) === thing);
    if (named) return { begin: at + 1, end };
  }
  return null;
}
/** The value on a line, without quotes and without the comment behind it. */
function valueOf(line: string): string {
  const value = line.slice(line.indexOf("=") + 1).trim();
  const text = /^(?:"((?:[^"\\]|\\.)*)"|'([^']*)')/.exec(value);
  if (text) return text[2] ?? (JSON.parse(`"${text[1] ?? ""}"`) as string);
  return value.split("#")[0]?.trim() ?? "";
}
const lineOf = (lines: string[], block: Block, key: string): number => {
  const at = lines.slice(block.begin, block.end).findIndex((line) => new RegExp(`^\\s*${key}\\s*=`).test(line));
  return at < 0 ? -1 : block.begin + at;
};

/** The value of a key as it is written; empty: not there. */
export function keyOf(text: string, thing: string, key: string): string {
  const lines = text.split("\n");
  const block = blockOf(lines, thing);
  const at = block ? lineOf(lines, block, key) : -1;
  return at < 0 ? "" : valueOf(lines[at] ?? "");
}

/** The text with this value; an empty one takes the key away. Numbers stay bare, all else is quoted. A thing that is not there changes nothing. */
export function withKey(text: string, thing: string, key: string, value: string): string {
  const lines = text.split("\n");
  const block = blockOf(lines, thing);
  if (!block) return text;
  const at = lineOf(lines, block, key);
  const written = value.trim();
  if (written === "") {
    if (at >= 0) lines.splice(at, 1);
    return lines.join("\n");
  }
  const bare = /^[+-]?\d+(?:\.\d+)?$/.test(written) ? written : quoted(written);
  if (at >= 0) {
    const line = lines[at] ?? "";
    const found = /^(\s*[\w-]+\s*=\s*)(?:"(?:[^"\\]|\\.)*"|'[^']*'|[^#\s][^#]*?)(\s*(?:#.*)?)$/.exec(line);
    lines[at] = found ? `${found[1]}${bare}${found[2]}` : `${key} = ${bare}`;
    return lines.join("\n");
  }
  let last = block.end;
  while (last > block.begin && (lines[last - 1] ?? "").trim() === "") last -= 1;
  lines.splice(last, 0, `${key} = ${bare}`);
  return lines.join("\n");
}
