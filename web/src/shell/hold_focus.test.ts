// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { nearest } from "./hold_focus";

const laid = (html: string): void => {
  document.body.innerHTML = html;
  // happy-dom lays nothing out: everything counts as shown
  Element.prototype.getClientRects = () => [{}] as unknown as DOMRectList;
};
const first = (lost: Element[], order: Map<Element, number>): HTMLElement | undefined => [...nearest(lost, order)][0];
const path = (id: string): Element[] => {
  const nodes: Element[] = [];
  for (let node: Element | null = document.getElementById(id); node && node !== document.body; node = node.parentElement) nodes.push(node);
  return nodes;
};

describe("where the focus goes", () => {
  it("goes to what took the place of a line that went", () => {
    laid('<ul><li><button id="a">a</button></li><li><button id="b">b</button></li><li><button id="c">c</button></li></ul>');
    const lost = path("b");
    lost[1]?.remove();
    expect(first(lost, new Map([[document.querySelector("ul")!, 1]]))?.id).toBe("c");
  });
  it("goes to the last when the last went", () => {
    laid('<ul><li><button id="a">a</button></li><li><button id="b">b</button></li></ul>');
    const lost = path("b");
    lost[1]?.remove();
    expect(first(lost, new Map([[document.querySelector("ul")!, 1]]))?.id).toBe("a");
  });
  it("goes to the new place when the place is left", () => {
    laid('<div id="page"><main id="old" tabindex="-1"><button id="a">a</button></main></div>');
    const lost = path("a");
    const page = document.getElementById("page");
    page?.replaceChildren();
    page?.insertAdjacentHTML("beforeend", '<button>first</button><main id="new" tabindex="-1"></main>');
    expect(first(lost, new Map())?.id).toBe("new");
  });
});
