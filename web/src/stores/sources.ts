// sources.ts - where a number comes from, in words. The larder tells a source as `practice`, `definition`, `memory: publication`, as a key of its list
// of publications, or in a cook's own words.

export function sourceWords(source: string): string {
  if (!source) return "no source told";
  if (source === "practice") return "common practice, no published source";
  if (source === "definition") return "by definition";
  if (source === "invented") return "invented";
  const memory = /^memory:\s*(.*)$/.exec(source);
  if (memory) return `from memory of ${memory[1]}`;
  return /^[a-z]+\d*[a-z0-9_]*$/.test(source) ? `published, “${source}” in the list of sources` : source;
}
