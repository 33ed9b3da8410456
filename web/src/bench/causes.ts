// causes.ts - the causes of scatter as the page shows them: by the readings one asks first, the largest causes of each. Choice and order only.
import type * as wire from "../api/types";

const asked = ["abv_percent", "sugar_percent", "titratable_acidity_g_100g_citric", "ph_25c", "temperature_c", "volume_ml"];

export interface CauseGroup {
  key: string;
  causes: wire.Cause[];
}

/** Up to `most` causes of each reading asked first, the largest first; causes that make next to nothing are left out. */
export function causesOf(scatter: wire.Scattered, most = 4): CauseGroup[] {
  return asked
    .map((key) => ({
      key,
      causes: scatter.causes
        .filter((one) => one.of === key && (one.total ?? 0) >= 0.02)
        .sort((a, b) => (b.total ?? 0) - (a.total ?? 0))
        .slice(0, most),
    }))
    .filter((group) => group.causes.length > 0);
}
