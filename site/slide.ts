// What is wider than its page slides under a finger. The keyboard must reach it too; not every browser sees to that.
const SLIDES = "table, pre, .formula .rows";

export function startSliding(): void {
  // Parts are unfolded and answers written anew: each time the page's height changes.
  new ResizeObserver(() => {
    for (const part of document.querySelectorAll<HTMLElement>(SLIDES)) {
      const slides = getComputedStyle(part).overflowX !== "visible" && (part.scrollWidth > part.clientWidth || part.scrollHeight > part.clientHeight);
      if (slides) part.tabIndex = 0;
      else part.removeAttribute("tabindex");
    }
  }).observe(document.body);
}
