/** Acts when something happens at what the CSS names, within a part, also where that comes later. */
export function on<Kind extends HTMLElement = HTMLElement>(part: EventTarget, what: string, css: string, act: (found: Kind, event: Event) => unknown): void {
  part.addEventListener(what, (event) => {
    const found = (event.target as Element).closest<Kind>(css);
    if (found) act(found, event);
  });
}
