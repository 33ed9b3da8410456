// naming.ts - a name on the shelf that is not taken yet: the title, or the title and a number.
export function freeName(title: string, taken: readonly string[]): string {
  const wanted = title.trim().slice(0, 160) || "Untitled";
  const names = new Set(taken);
  for (let n = 1; ; n++) {
    const name = n === 1 ? wanted : `${wanted} ${n}`;
    if (!names.has(name)) return name;
  }
}
