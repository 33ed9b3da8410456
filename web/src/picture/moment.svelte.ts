// moment.svelte.ts - how long after the first sip the glass and the readings are shown: the stops are the engine's, first `at_service`, then `over_time`.
import type * as wire from "../api/types";

class Moment {
  /** 0: at service; i: the i-th of over_time. */
  index = $state(0);
}
export const moment = new Moment();

/** Minutes of all stops; 0 is the first sip. */
export const stops = (serve: wire.SheetServe): number[] => [0, ...serve.over_time.map((one) => one.minute ?? 0)];

/** The glass at a stop; a stop that is not there is the last one. */
export function propertiesAt(serve: wire.SheetServe, index: number): wire.Properties {
  return index <= 0 ? serve.at_service : (serve.over_time[index - 1] ?? serve.over_time.at(-1) ?? serve.at_service);
}
