// stages.ts - a course as the screens a cook walks through. A step that takes things and then runs against a clock is two of them: first it is
// weighed in, then its clock starts. All other steps are one.
import type { CounterStep, CounterTake, Course } from "../api/types";

export interface Stage {
  /** Place of its step in `course.steps`. */
  step: number;
  kind: "weigh" | "act";
  /** Its word on the thread. */
  word: string;
  heading: string;
}

/** Weigh-in and act of each step, in the order of the course. */
export function stagesOf(course: Course): Stage[] {
  return course.steps.flatMap((step, index): Stage[] => {
    const act: Stage = { step: index, kind: "act", word: step.do, heading: step.heading };
    if (step.takes.length === 0) return [act];
    if (step.window === null) return [{ ...act, kind: "weigh" }];
    return [{ step: index, kind: "weigh", word: "weigh in", heading: weighHeading(step.takes) }, act];
  });
}

function weighHeading(takes: CounterTake[]): string {
  const [only] = takes;
  if (takes.length === 1 && only) return only.pieces === null ? `Weigh the ${only.label} in` : `Count the ${only.label} in`;
  return "Weigh in";
}

/** Whether the matter of this step waits on the side while the cook does other things: it goes in at the next `combine`. */
export const runsOnTheSide = (step: CounterStep): boolean => step.do === "bloom";

/** What a course is called in a running text, and how it is told apart from the others. */
export function courseName(course: Course): string {
  return course.part === "serve" ? "the glass" : course.part;
}
