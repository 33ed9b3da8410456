// client.ts - the wire: JSON to and from the program on this machine. Types are made from api/openapi.json (scripts/types.mjs).
//
// A refusal becomes a `Refused` with what the program said; no answer at all becomes a `NoEngine`.
import type * as wire from "./types";

export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly kind: string,
    says: string,
    readonly faults: wire.Fault[],
    readonly body: unknown,
  ) {
    super(says);
  }
}
export class NoEngine extends Error {}

/** What went wrong, in words for a person. */
export const told = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

interface Ask {
  method?: "GET" | "POST" | "PUT" | "DELETE";
  body?: unknown;
  headers?: Record<string, string>;
  signal?: AbortSignal;
}

async function answered(path: string, ask: Ask): Promise<Response> {
  const headers: Record<string, string> = { Accept: "application/json", ...ask.headers };
  if (ask.body !== undefined) headers["Content-Type"] = "application/json";
  let response: Response;
  try {
    response = await fetch(`/api/v1${path}`, {
      method: ask.method ?? "GET",
      headers,
      ...(ask.body === undefined ? {} : { body: JSON.stringify(ask.body) }),
      ...(ask.signal ? { signal: ask.signal } : {}),
    });
  } catch (fault) {
    if (ask.signal?.aborted) throw fault;
    throw new NoEngine("the program does not answer");
  }
  if (response.ok) return response;
  const body = (await response.json().catch(() => null)) as { error?: { kind: string; says: string; faults?: wire.Fault[] } } | null;
  const error = body?.error;
  throw new Refused(
    response.status,
    error?.kind ?? "internal",
    error?.says ?? `the program answered ${response.status}`,
    error?.faults ?? [],
    body,
  );
}

async function call<T>(path: string, ask: Ask = {}): Promise<T> {
  const response = await answered(path, ask);
  return (await response.json()) as T;
}

const post = <T>(path: string, body: unknown, signal?: AbortSignal): Promise<T> =>
  call<T>(path, { method: "POST", body, ...(signal ? { signal } : {}) });

const documentPath = (kind: string, name: string): string => `/documents/${encodeURIComponent(kind)}/${encodeURIComponent(name)}`;

/** Long work: lines of JSON, progress first, the document last. Aborting the signal cancels the work. */
async function streamed<T>(path: string, body: unknown, progress: (share: number) => void, signal: AbortSignal): Promise<T> {
  const response = await answered(path, { method: "POST", body, signal });
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  let waiting = "";
  while (reader) {
    const { value, done } = await reader.read();
    if (done) break;
    const lines = (waiting + value).split("\n");
    waiting = lines.pop() ?? "";
    for (const line of lines.filter(Boolean)) {
      const said = JSON.parse(line) as { progress?: number; done?: T; error?: { kind: string; says: string; faults?: wire.Fault[] } };
      if (said.progress !== undefined) progress(said.progress);
      if (said.error) throw new Refused(200, said.error.kind, said.error.says, said.error.faults ?? [], said);
      if (said.done !== undefined) return said.done;
    }
  }
  throw new NoEngine("the answer broke off");
}

export const engine = {
  hello: () => call<wire.Hello>("/hello"),
  words: () => call<wire.Words>("/words"),
  pair: (code: string) => post<unknown>("/pair", { code }),

  bench: (ask: wire.BenchAsked, signal?: AbortSignal) => post<wire.Bench>("/bench", ask, signal),
  counter: (ask: { text: string; serves?: number }) => post<wire.Counter>("/counter", ask),
  lines: (lines: string) => post<wire.Lines>("/lines", { lines }),
  compare: (before: string, after: string) => post<wire.Compared>("/compare", { before, after }),
  balance: (ask: wire.BalanceAsked, progress: (share: number) => void, signal: AbortSignal) =>
    streamed<wire.Balanced>("/balance", ask, progress, signal),
  scatter: (ask: wire.ScatterAsked, progress: (share: number) => void, signal: AbortSignal) =>
    streamed<wire.Scattered>("/scatter", ask, progress, signal),

  documents: (kind?: string) => call<wire.Documents>(kind ? `/documents?kind=${encodeURIComponent(kind)}` : "/documents"),
  search: (words: string, signal?: AbortSignal) => call<wire.Found>(`/search?words=${encodeURIComponent(words)}`, signal ? { signal } : {}),
  read: (kind: string, name: string) => call<wire.Document>(documentPath(kind, name)),
  revisions: (kind: string, name: string) => call<wire.Revisions>(`${documentPath(kind, name)}/revisions`),
  revision: (kind: string, name: string, number: number) => call<wire.Document>(`${documentPath(kind, name)}/revisions/${number}`),
  /** Saves a text made from a revision (0: a new document). */
  save: (kind: string, name: string, text: string, madeFrom: number) =>
    call<wire.Saved>(documentPath(kind, name), { method: "PUT", body: { text }, headers: precondition(madeFrom) }),
  remove: (kind: string, name: string, madeFrom: number) =>
    call<wire.Saved>(documentPath(kind, name), { method: "DELETE", headers: precondition(madeFrom) }),

  larder: () => call<wire.Larder>("/larder"),
  larderDraft: (ask: wire.DraftAsked) => post<wire.Draft>("/larder/draft", ask),
  kit: () => call<wire.Kit>("/kit"),
  names: (words: string, signal?: AbortSignal) =>
    call<wire.Names>(`/names?words=${encodeURIComponent(words)}&most=12`, signal ? { signal } : {}),
  sound: (kind: string, text: string) => post<{ faults: wire.Fault[] }>("/read", { kind, text }),
};

function precondition(madeFrom: number): Record<string, string> {
  return madeFrom === 0 ? { "If-None-Match": "*" } : { "If-Match": `"${madeFrom}"` };
}
